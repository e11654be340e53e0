/** XML text made safe to parse, and where it had to be cut. */
export interface XmlDocument {
  readonly text: string;
  /** Character after the last complete point, where the text does not end as XML should; null where it does. */
  readonly cutAt: number | null;
}

/** Text from the first `<`, without a document type: what that declares is never looked at. */
const withoutProlog = (text: string): string => {
  const first = text.indexOf('<');
  const body = first < 0 ? '' : text.slice(first);
  const doctype = /<!DOCTYPE/i.exec(body);
  const root = body.search(/<[A-Za-z_]/);
  if (doctype === null || (root >= 0 && root < doctype.index)) return body;
  let depth = 0;
  let quote = '';
  for (let i = doctype.index; i < body.length; i++) {
    const char = body[i]!;
    if (quote !== '') quote = char === quote ? '' : quote;
    else if (char === '"' || char === "'") quote = char;
    else if (char === '[') depth++;
    else if (char === ']') depth--;
    else if (char === '>' && depth === 0) return body.slice(0, doctype.index) + body.slice(i + 1);
    else if (char === '<' && body.startsWith('<!--', i)) {
      const end = body.indexOf('-->', i);
      if (end < 0) return '';
      i = end + 2;
    }
  }
  return '';
};

const MARK =
  /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>|<\/([A-Za-z_][\w.:-]*)\s*>|<([A-Za-z_][\w.:-]*)((?:\s+[\w.:-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>|</g;

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

/**
 * XML that can be parsed: its outermost element, without what stands before it (stray bytes, a document type). Where elements
 * are left open or do not match, the text is cut after the last complete element of one of the names, and what
 * is open there is closed.
 * @param pointNames local names of the elements that are the log's points
 * @returns null where the text has no element at all
 */
export const xmlDocument = (raw: string, pointNames: readonly string[]): XmlDocument | null => {
  const text = withoutProlog(raw);
  const open: string[] = [];
  let root: string | null = null;
  let [rootStart, rootEnd] = [0, 0];
  let closed = false;
  let pointEnd = -1;
  let openAtPoint: readonly string[] = [];
  MARK.lastIndex = 0;
  for (let found = MARK.exec(text); found !== null; found = MARK.exec(text)) {
    const [mark, closing, opening, , selfClosing] = found;
    if (mark === '<') break;
    if (closing === undefined && opening === undefined) continue;
    if (opening !== undefined) {
      if (root === null) {
        root = opening;
        rootStart = found.index;
        rootEnd = MARK.lastIndex;
      }
      if (selfClosing !== '/') {
        open.push(opening);
        continue;
      }
    } else if (open.pop() !== closing) break;
    if (pointNames.includes(localName(opening ?? closing ?? ''))) {
      pointEnd = MARK.lastIndex;
      openAtPoint = [...open];
    }
    if (open.length === 0) {
      closed = true;
      break;
    }
  }
  if (root === null) return null;
  if (closed) return { text: text.slice(rootStart, MARK.lastIndex), cutAt: null };
  const [end, names] = pointEnd < 0 ? [rootEnd, [root]] : [pointEnd, openAtPoint];
  return {
    text:
      text.slice(rootStart, end) +
      [...names]
        .reverse()
        .map((name) => `</${name}>`)
        .join(''),
    cutAt: end,
  };
};
