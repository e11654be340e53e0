import { CRAFT_CODES, type Craft } from './craft.js';

/**
 * The craft that a folder's name tells: a class code standing alone or between spaces, dashes or underscores.
 * @example folderCraft('Heron 4x') // '4x'
 */
export const folderCraft = (name: string): Craft | null => {
  const words = ` ${name.toLowerCase().replace(/[\s_,]+/g, ' ')} `;
  const dashed = words.replace(/(\S)-(?=\S)/g, '$1 ');
  const named = CRAFT_CODES.filter(
    (code) => words.includes(` ${code.toLowerCase()} `) || dashed.includes(` ${code.toLowerCase()} `),
  );
  return named[0] ?? null;
};
