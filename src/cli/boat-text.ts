import { type BoatFile, boatFile } from '../contract/boat.js';
import { parseInputFile } from '../contract/input-file.js';
import { inputText } from '../host/input-text.js';

/** The boat in a file. */
export const boatIn = async (path: string): Promise<BoatFile> =>
  parseInputFile(boatFile, await inputText(path, 'boat file'), path).value;
