import { columnsFile } from '../contract/columns.js';
import { parseInputFile } from '../contract/input-file.js';
import { inputText } from '../host/input-text.js';

/** The names for columns in a file. */
export const columnsIn = async (path: string): Promise<Readonly<Record<string, string>>> =>
  parseInputFile(columnsFile, await inputText(path, 'columns file'), path).value;
