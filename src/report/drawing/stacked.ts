import { element, px } from './element.js';
import type { Drawing } from './picture.js';

/** Room from one drawing to the next, px. */
const APART = 8;

/** Drawings of one width, one below the other. */
export const stacked = (drawings: readonly Drawing[]): Drawing => {
  let top = 0;
  const parts = drawings.map(({ markup, height }) => {
    const part = element('g', { transform: `translate(0 ${px(top)})` }, markup);
    top += height + APART;
    return part;
  });
  return { width: drawings[0]!.width, height: Math.max(0, top - APART), markup: parts.join('') };
};
