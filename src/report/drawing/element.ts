import { cleanText } from '../clean-text.js';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text of a log, sheet or list as it may stand in HTML: between tags, or in an attribute's quotes. */
export const escaped = (text: string): string =>
  cleanText(text).replace(/[&<>"']/g, (found) => ENTITIES[found]!);

/** What an element may carry; null leaves an attribute out. */
export type Attributes = Readonly<Record<string, string | number | null>>;

/**
 * One element as HTML or SVG text. Values of attributes are escaped; children are markup already.
 * @example element('b', { class: 'x' }, escaped('<')) // '<b class="x">&lt;</b>'
 */
export const element = (name: string, attributes: Attributes, ...children: readonly string[]): string => {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    .join('');
  return `<${name}${written}>${children.join('')}</${name}>`;
};

/** A length on the drawing, in its own pixels, as text: a tenth of a pixel cannot be seen. */
export const px = (length: number): string => String(Number(length.toFixed(1)) + 0);
