import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gpxParsed } from '../../../src/formats/gpx/gpx-parsed.js';
import { gpxScanned } from '../../../src/formats/gpx/gpx-scanned.js';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The scanner gives what the parser gives, to the bit, or declines; returns whether it took the bytes. */
const taken = (bytes: Uint8Array): boolean => {
  const scanned = gpxScanned(bytes);
  if (scanned === null) return false;
  expect({ points: scanned, warnings: [] }).toEqual(gpxParsed(bytes, 'a.gpx'));
  return true;
};

const decimal = fc.oneof(
  {
    weight: 15,
    arbitrary: fc
      .tuple(fc.integer({ min: -180, max: 180 }), fc.nat(1e9))
      .map(([whole, rest]) => `${whole}.${rest}`),
  },
  { weight: 1, arbitrary: fc.double({ min: -180, max: 180, noNaN: true }).map(String) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      ...['-0.0', '+5', '.5', '5.', '1e1', '47.123456789012345678901234567', '0012', '', 'x', '1,5', ' 7 '],
    ),
  },
);
const regularTime = fc
  .tuple(
    fc.integer({ min: 1, max: 31 }),
    fc.nat(23),
    fc.nat(59),
    fc.nat(59),
    fc.constantFrom('', '.5', '.123', '.1234567'),
  )
  .map(
    ([day, ...rest]) =>
      `2026-02-${String(day).padStart(2, '0')}T${rest
        .slice(0, 3)
        .map((part) => String(part).padStart(2, '0'))
        .join(':')}${rest[3]}Z`,
  );
const time = fc.oneof(
  { weight: 6, arbitrary: regularTime },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      '',
      '2026-02-03T10:00:00+02:00',
      '2026-02-03T10:00:00',
      '2026-02-03 10:00:00Z',
      ' 2026-02-03T10:00:00Z ',
      '2026-02-03T24:00:00Z',
      '2026-02-03T10:00:60Z',
      '2026-02-03T10:00Z',
      '0026-02-03T10:00:00Z',
      'yesterday &amp; today',
      '2026-02-03T10:00:00.99999999999999999999Z',
    ),
  },
);
const space = fc.constantFrom('', '\n', '\r\n  ', '\t', ' ');
const wrapped = (name: string, inside: string): string => `<${name}>${inside}</${name}>`;
/** Name of an element's start, prefix left out, in lower case. */
const nameOf = (text: string): string => /^<(?:[\w-]+:)?(\w+)/.exec(text)![1]!.toLowerCase();
const inner = fc
  .tuple(
    fc.constantFrom('', 'tpx:', 'a-b:'),
    fc.constantFrom('hr', 'cad', 'SPEED', 'Speed', 'temp', 'accuracy'),
    decimal,
  )
  .map(([prefix, name, value]) => wrapped(prefix + name, value));
const child = fc.oneof(
  time.map((text) => wrapped('time', text)),
  decimal.map((text) => wrapped('ele', text)),
  fc.constantFrom(
    '<ele/>',
    '<sym>Flag &amp; dot</sym>',
    '<desc></desc>',
    '<link href="a>b"><text>t</text></link>',
  ),
  fc
    .uniqueArray(inner, { maxLength: 3, selector: nameOf })
    .map((list) => wrapped('extensions', `\n<x:Tpx xmlns:x='urn:a'>${list.join(' ')}</x:Tpx>`)),
);
const distinct = fc.uniqueArray(fc.tuple(space, child), {
  maxLength: 4,
  selector: ([, text]) => nameOf(text),
});
const point = fc
  .tuple(
    decimal,
    decimal,
    fc.oneof(
      { weight: 8, arbitrary: distinct },
      { weight: 1, arbitrary: fc.array(fc.tuple(space, child), { maxLength: 4 }) },
    ),
    space,
    fc.boolean(),
  )
  .map(([lat, lon, children, gap, swapped]) => {
    const attributes = swapped ? `lon='${lon}' lat="${lat}"` : `lat="${lat}" lon="${lon}"`;
    const inside = children.map((parts) => parts.join('')).join('');
    return inside === '' ? `<trkpt ${attributes}${gap}/>` : `<trkpt ${attributes}>${inside}${gap}</trkpt>`;
  });
const segment = fc
  .tuple(fc.array(fc.tuple(space, point), { maxLength: 4 }), space)
  .map(([points, gap]) => wrapped('trkseg', points.map((parts) => parts.join('')).join('') + gap));
const track = fc
  .tuple(
    fc.constantFrom('', '<name><![CDATA[<trkseg>]]></name>', '<type>rowing</type>', '<!-- <trkseg> -->'),
    fc.array(segment, { maxLength: 3 }),
  )
  .map(([head, segments]) => wrapped('trk', `${head}\n${segments.join('\n')}`));
const gpx = fc
  .tuple(
    fc.constantFrom('', '\ufeff', '<?xml version="1.0"?>', ' ', '<?xml version="1.0"?><!DOCTYPE gpx>'),
    fc.array(track, { minLength: 1, maxLength: 2 }),
  )
  .map(([head, tracks]) => `${head}<gpx version="1.1" creator="A &amp; B">${tracks.join('')}</gpx>`);

/** Points as a device writes them, one like the other but for their values, few of which are odd. */
const alike = fc
  .tuple(fc.subarray(['ele', 'time', 'hr', 'speed']), space, fc.constantFrom('"', "'"), fc.boolean())
  .chain(([names, gap, quote, closed]) => {
    const drawn = (name: string) => (name === 'time' ? time : decimal);
    const row = fc.tuple(decimal, decimal, ...names.map(drawn)).map(([lat, lon, ...values]) => {
      const inside = names.map((name, i) => gap + wrapped(name, values[i]!)).join('');
      const start = `<trkpt lat=${quote}${lat}${quote} lon=${quote}${lon}${quote}`;
      return inside === '' && closed ? `${start}/>` : `${start}>${inside}${gap}</trkpt>`;
    });
    return fc
      .array(row, { minLength: 1, maxLength: 12 })
      .map((rows) => `<gpx><trk><trkseg>${gap}${rows.join(gap)}</trkseg></trk></gpx>`);
  });

/** Pieces that a mutation puts somewhere. */
const PIECES = [
  '<',
  '>',
  '/',
  '"',
  ' ',
  '&',
  '<!-- c -->',
  '</trkpt>',
  '<trkpt lat="1" lon="2">',
  '<trkseg>',
  '</trkseg>',
  '<trkseg/>',
  '<x>',
  '\0',
  '\u00e9',
  '5',
  ':',
  '<?a?>',
  '<![CDATA[5]]>',
  '</trk>',
  '<trk>',
];

describe('the GPX scanner against the parser', () => {
  it('takes what devices write', () => {
    const one = (second: number): string =>
      `<trkpt lat="47.1234567" lon="8.7654321">\n<ele>406.5</ele><time>2026-04-03T10:00:0${second}.250Z</time><extensions><gpxtpx:TrackPointExtension><gpxtpx:hr>150</gpxtpx:hr><gpxtpx:cad>28</gpxtpx:cad></gpxtpx:TrackPointExtension></extensions></trkpt>\n`;
    const text = `<?xml version="1.0"?>\n<gpx creator="A"><metadata/><trk><name>N</name><trkseg>\n${one(0)}${one(1)}</trkseg></trk></gpx>`;
    expect(taken(bytesOf(text))).toBe(true);
  });

  it('agrees on generated files, and takes most of them', () => {
    let [all, took] = [0, 0];
    fc.assert(
      fc.property(gpx, (text) => {
        all++;
        if (taken(bytesOf(text))) took++;
      }),
      { numRuns: 1500, seed: 7 },
    );
    expect(took / all).toBeGreaterThan(0.2);
  });

  it('agrees on points that are alike, and takes most of them', () => {
    let [all, took] = [0, 0];
    fc.assert(
      fc.property(alike, (text) => {
        all++;
        if (taken(bytesOf(text))) took++;
      }),
      { numRuns: 1500, seed: 10 },
    );
    expect(took / all).toBeGreaterThan(0.4);
  });

  it('agrees on files with a piece put in, left out or turned', () => {
    const place = fc.nat(2000);
    fc.assert(
      fc.property(
        fc.oneof(gpx, alike),
        fc.array(fc.tuple(place, place, fc.constantFrom(...PIECES)), { minLength: 1, maxLength: 3 }),
        (text, edits) => {
          let edited = text;
          for (const [at, length, piece] of edits) {
            const from = at % (edited.length + 1);
            edited = edited.slice(0, from) + piece + edited.slice(from + (length % 4));
          }
          taken(bytesOf(edited));
        },
      ),
      { numRuns: 3000, seed: 8 },
    );
  });

  it('agrees on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), gpx, fc.nat(), (junk, text, at) => {
        const bytes = bytesOf(text);
        bytes.set(junk.subarray(0, 3), at % Math.max(1, bytes.length - 3));
        taken(bytes);
        taken(junk);
      }),
      { numRuns: 1000, seed: 9 },
    );
  });
});
