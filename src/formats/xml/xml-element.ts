import { XMLParser } from 'fast-xml-parser';

/** An element: its attributes (keys with `@`), its text (`#text`) and its children by local name. */
export interface XmlElement {
  readonly [name: string]: XmlValue | readonly XmlValue[] | undefined;
}

/** An element that holds text and nothing else is that text. */
export type XmlValue = string | XmlElement;

const PARSER = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '@',
  removeNSPrefix: true,
  parseTagValue: false,
  parseAttributeValue: false,
  processEntities: false,
  ignoreDeclaration: true,
  ignorePiTags: true,
  trimValues: true,
});

/**
 * Elements of well-formed XML. Entities are left as they stand, name-space prefixes are dropped, and no text
 * is turned into a number.
 * @throws whatever the parser throws on text that is not XML
 */
export const parseXml = (text: string): XmlElement => PARSER.parse(text) as XmlElement;

/** All children of a name, in their order. */
export const childrenOf = (element: XmlElement, name: string): readonly XmlValue[] => {
  const found = element[name];
  if (found === undefined) return [];
  return (Array.isArray(found) ? found : [found]) as readonly XmlValue[];
};

/** All children of a name that have children or attributes of their own. */
export const elementsOf = (element: XmlElement, name: string): readonly XmlElement[] =>
  childrenOf(element, name).filter((child): child is XmlElement => typeof child !== 'string');

/** The text of the first child of a name; null where there is none. */
export const textOf = (element: XmlElement, name: string): string | null => {
  const first = childrenOf(element, name)[0];
  if (first === undefined) return null;
  const text = typeof first === 'string' ? first : first['#text'];
  return typeof text === 'string' && text !== '' ? text : null;
};

/** An attribute; null where there is none. */
export const attributeOf = (element: XmlElement, name: string): string | null => {
  const value = element[`@${name}`];
  return typeof value === 'string' ? value : null;
};
