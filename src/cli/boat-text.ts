import { type BoatFile, boatFile } from '../contract/boat.js';
import { parseInputFile } from '../contract/input-file.js';
import { inputText } from '../host/input-text.js';

/** The boat file that was told; null where none was. */
export const boatOf = async (path: string | null): Promise<BoatFile | null> =>
  path === null ? null : parseInputFile(boatFile, await inputText(path, 'boat file'), path).value;
