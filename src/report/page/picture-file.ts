import { element, escaped, px } from '../drawing/element.js';
import { type Picture, WIDTHS } from '../drawing/picture.js';
import { PICTURE_STYLE } from './style.js';

/** A picture as an SVG file of its own, in light or dark as its reader has it. */
export const pictureFile = (picture: Picture): string => {
  const { width, height, markup } = picture.draw(WIDTHS.wide);
  return `${element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${px(width)} ${px(height)}`,
      width: px(width),
      height: px(height),
      role: 'img',
      'aria-labelledby': 'title desc',
    },
    element('title', { id: 'title' }, escaped(picture.title)),
    element('desc', { id: 'desc' }, escaped(picture.description)),
    `<style>${PICTURE_STYLE}</style>`,
    element('rect', { class: 'sheet', width: px(width), height: px(height) }),
    markup,
  )}\n`;
};
