/** Control characters, line and direction marks: a log's own text must not move the terminal's cursor. */
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]+/g;

/** Text from a file, safe to show on one line of a terminal. */
export const cleanText = (text: string): string => text.replace(UNPRINTABLE, ' ').trim();
