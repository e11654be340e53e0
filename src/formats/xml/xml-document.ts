/** XML text made safe to parse, and where it had to be cut. */
export interface XmlDocument {
  readonly text: string;
  /** Character after the last complete point, where the text does not end as XML should; null where it does. */
  readonly cutAt: number | null;
  /** Characters after which samples were left out, because the text is damaged there. */
  readonly damage: readonly number[];
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
 * Elements that are a log's points, by local name, and the elements that stand between the outermost and each of
 * them; of several ways the first is taken where the text does not tell.
 */
export type PointHomes = Readonly<Record<string, readonly (readonly string[])[]>>;

const endTags = (names: readonly string[]): string =>
  [...names]
    .reverse()
    .map((name) => `</${name}>`)
    .join('');
const startTags = (names: readonly string[]): string => names.map((name) => `<${name}>`).join('');

/** True where a point of these homes may stand in the open elements. */
const isAtHome = (open: readonly string[], homes: readonly (readonly string[])[]): boolean =>
  homes.some(
    (home) => home.length === open.length - 1 && home.every((name, i) => name === localName(open[i + 1]!)),
  );

/** A walk over the tags of a text, and what of the text can be kept. */
interface Walk {
  readonly kept: string[];
  /** Elements open around the last point of each name. */
  readonly chains: Map<string, readonly string[]>;
  /** Elements open where the last point ended; null before the first. */
  openAtPoint: readonly string[] | null;
  open: string[];
  /** Where what is not yet kept begins, and behind its last complete point. */
  from: number;
  pointEnd: number;
}

/** Leave out what stands from the last complete point to the next one, and go on there in a stretch of its own. */
const leapTo = (text: string, walk: Walk, root: string, homes: PointHomes, next: RegExpExecArray): void => {
  if (walk.pointEnd > walk.from) walk.kept.push(text.slice(walk.from, walk.pointEnd));
  const open = walk.openAtPoint ?? [root];
  const home = walk.chains.get(localName(next[1]!)) ?? [root, ...homes[localName(next[1]!)]![0]!];
  const same = home.length === open.length && home.every((name, i) => name === open[i]);
  // The outermost element stays open whatever comes, for there can be but one.
  const shared = Math.max(1, same ? home.length - 1 : 1);
  walk.kept.push(endTags(open.slice(shared)), startTags(home.slice(shared)));
  walk.openAtPoint = home;
  walk.open = [...home];
  walk.from = next.index;
  walk.pointEnd = next.index;
};

/**
 * XML that can be parsed: its outermost element, without what stands before it (stray bytes, a document type).
 * Where a text is damaged, what stands between the complete points around the damage is left out; where it is cut
 * off, it ends after its last complete point, and what is open there is closed.
 * @param homes the elements that are the log's points
 * @returns null where the text has no element at all
 */
export const xmlDocument = (raw: string, homes: PointHomes): XmlDocument | null => {
  const text = withoutProlog(raw);
  const isPoint = (name: string): boolean => Object.hasOwn(homes, localName(name));
  const pointStart = new RegExp(
    `<((?:[\\w.-]+:)?(?:${Object.keys(homes).join('|') || '(?!)'}))(?=[\\s/>])`,
    'g',
  );
  const walk: Walk = { kept: [], chains: new Map(), openAtPoint: null, open: [], from: 0, pointEnd: 0 };
  let root: string | null = null;
  let rootEnd = 0;
  const damage: number[] = [];
  let found: RegExpExecArray | null;
  MARK.lastIndex = 0;
  for (found = MARK.exec(text); found !== null; found = MARK.exec(text)) {
    const [mark, closing, opening, , selfClosing] = found;
    if (mark !== '<' && closing === undefined && opening === undefined) continue;
    const stray =
      opening !== undefined && isPoint(opening) && !isAtHome(walk.open, homes[localName(opening)]!);
    const broken = mark === '<' || stray || (closing !== undefined && walk.open.at(-1) !== closing);
    if (broken && root === null) return null;
    if (broken) {
      pointStart.lastIndex = stray ? found.index : found.index + 1;
      const next = pointStart.exec(text);
      if (next === null) break;
      damage.push(walk.openAtPoint === null ? found.index : walk.pointEnd);
      if (walk.openAtPoint === null) walk.pointEnd = rootEnd;
      leapTo(text, walk, root!, homes, next);
      MARK.lastIndex = next.index;
      continue;
    }
    if (opening !== undefined && root === null) {
      root = opening;
      walk.from = found.index;
      rootEnd = MARK.lastIndex;
    }
    if (opening !== undefined) walk.open.push(opening);
    if (closing !== undefined || selfClosing === '/') {
      walk.open.pop();
      if (isPoint(opening ?? closing!)) {
        walk.pointEnd = MARK.lastIndex;
        walk.openAtPoint = [...walk.open];
        walk.chains.set(localName(opening ?? closing!), walk.openAtPoint);
      }
    }
    if (walk.open.length === 0) break;
  }
  if (root === null) return null;
  const whole = found !== null && walk.open.length === 0;
  const [end, open] = whole
    ? [MARK.lastIndex, []]
    : walk.openAtPoint === null
      ? [rootEnd, [root]]
      : [walk.pointEnd, walk.openAtPoint];
  walk.kept.push(text.slice(walk.from, Math.max(walk.from, end)), endTags(open));
  return { text: walk.kept.join(''), cutAt: whole ? null : end, damage };
};
