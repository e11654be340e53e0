export type { Outing } from './outing.js';
export { parseOutingSheet, sheetRowOf, stemOf } from './sheet.js';
