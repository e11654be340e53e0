/** Text as roff prints it where it stands. */
export const roffText = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/^([.'])/gm, '\\&$1')
    .replaceAll('…', '...');

/** The text that a line of roff prints, where {@link roffText} wrote it. */
export const textOfRoff = (roff: string): string =>
  roff.replace(/^\\&/gm, '').replaceAll('\\-', '-').replaceAll('\\e', '\\');
