/** The list that `thole schema` prints. */
export const schemaNames = (names: readonly string[]): string => names.map((name) => `${name}\n`).join('');
