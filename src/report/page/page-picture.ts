import { element, escaped, px } from '../drawing/element.js';
import { type Picture, type Pointer, WIDTHS } from '../drawing/picture.js';
import { knownColumns } from '../known-columns.js';
import { tableOf } from './page-tables.js';

/** One drawing of a picture, named and described for those who do not see it. */
const drawingOf = (picture: Picture, id: string, name: keyof typeof WIDTHS): string => {
  const { width, height, markup } = picture.draw(WIDTHS[name]);
  return element(
    'svg',
    {
      class: name,
      role: 'img',
      viewBox: `0 0 ${px(width)} ${px(height)}`,
      'aria-labelledby': `${id}-${name}-title ${id}-${name}-desc`,
    },
    element('title', { id: `${id}-${name}-title` }, escaped(picture.title)),
    element('desc', { id: `${id}-${name}-desc` }, escaped(picture.description)),
    markup,
  );
};

/** Data that the page's script reads; nothing in it can end the element. */
const dataOf = (pointers: readonly Pointer[]): string =>
  `<script type="application/json">${JSON.stringify(pointers).replaceAll('<', '\\u003c')}</script>`;

const numbersOf = ({ numbers }: Picture): string =>
  numbers === null || numbers.rows.length === 0
    ? ''
    : element(
        'details',
        {},
        element('summary', {}, 'Numbers of this picture'),
        tableOf(knownColumns(numbers)),
        ...numbers.notes.map((note) => element('p', { class: 'note' }, escaped(note))),
      );

/** A picture as the page shows it: drawn for desk and for phone, with what a reader points at, and its numbers. */
export const pictureOf = (picture: Picture, index: number): string => {
  const id = `picture-${index + 1}`;
  const pointed = picture.pointers.length > 0;
  return element(
    'figure',
    { id },
    element('h2', {}, escaped(picture.title)),
    element(
      'div',
      { class: 'picture' },
      drawingOf(picture, id, 'wide'),
      drawingOf(picture, id, 'narrow'),
      pointed ? '<div class="hair" hidden></div><div class="tip" hidden></div>' : '',
      pointed ? dataOf(picture.pointers) : '',
    ),
    ...picture.notes.map((note) => element('p', { class: 'note' }, escaped(note))),
    numbersOf(picture),
  );
};
