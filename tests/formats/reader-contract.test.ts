import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault, type ReadAnswer, readLog } from '../../src/formats/index.js';
import { READ_BOUNDS } from '../../src/formats/log-too-large.js';
import { READERS } from '../../src/formats/readers.js';
import type { Recording } from '../../src/recording/index.js';
import { edits, mutated } from './damage.js';
import { type SampleLog, sampleLogs } from './sample-logs.js';

const FILE = 'a boat.log';
/** C0 and C1 control characters, which no text taken from a file may carry to a terminal. */
const CONTROL = /\p{Cc}/u;

/** Reads, and holds what every answer has to hold, whatever the bytes. */
const answerOf = (bytes: Uint8Array): ReadAnswer => {
  const answer = readLog(bytes, FILE);
  const texts: (string | null)[] = [];
  if (isFault(answer)) {
    expect(answer.file).toBe(FILE);
    expect(answer.message).not.toBe('');
    expect(answer.code).not.toBe('too-large');
    texts.push(answer.message, answer.where);
  } else {
    expect(answer.provenance.file).toBe(FILE);
    const channels = Object.values(answer.channels);
    expect(channels.length).toBeGreaterThan(0);
    for (const { atS, columns } of channels) {
      expect(atS.length).toBeGreaterThan(0);
      expect(atS.every((at, i) => i === 0 || at > atS[i - 1]!)).toBe(true);
      for (const column of columns) expect(column.every(Number.isFinite)).toBe(true);
    }
    for (const warning of answer.warnings) {
      expect(warning.file).toBe(FILE);
      texts.push(warning.message, warning.where);
    }
    texts.push(answer.provenance.device, answer.provenance.sport);
  }
  for (const text of texts) expect(text === null || !CONTROL.test(text)).toBe(true);
  return answer;
};

const recordingOf = (bytes: Uint8Array): Recording => {
  const answer = answerOf(bytes);
  if (isFault(answer)) throw new Error(`${answer.code}: ${answer.message}`);
  return answer;
};

/** Ten points: a cut at every byte reads each log as often as it has bytes. */
const samples = sampleLogs(10);
const named = samples.map((sample): [string, SampleLog] => [sample.name, sample]);

it('covers every reader', () => {
  expect(new Set(samples.map(({ format }) => format))).toEqual(new Set(READERS.map(({ format }) => format)));
});

describe.each(named)('%s', (_, sample) => {
  it('is known by its bytes, by its own reader only', () => {
    const knowing = READERS.filter(({ sniff }) => sniff(sample.bytes)).map(({ format }) => format);
    expect(knowing[0]).toBe(sample.format);
    expect(knowing.filter((format) => format !== 'csv')).toEqual(
      sample.format === 'csv' ? [] : [sample.format],
    );
  });

  it('gives a recording with every point and nothing to warn of', () => {
    const recording = recordingOf(sample.bytes);
    expect(recording.provenance.format).toBe(sample.format);
    expect(recording.channels[sample.channel]!.atS).toHaveLength(sample.pointCount);
    expect(recording.warnings).toEqual([]);
  });

  it('keeps every complete point before a cut at any byte, and makes none up', () => {
    const whole = recordingOf(sample.bytes).channels[sample.channel]!;
    for (let cut = 0; cut < sample.bytes.length; cut++) {
      const complete = sample.pointEnds.filter((end) => end <= cut).length;
      const answer = answerOf(sample.bytes.subarray(0, cut));
      if (isFault(answer)) {
        expect(complete, `cut at ${cut}: ${answer.message}`).toBe(0);
        continue;
      }
      const kept = answer.channels[sample.channel];
      const count = kept?.atS.length ?? 0;
      expect(count, `cut at ${cut}`).toBeGreaterThanOrEqual(complete);
      expect(count, `cut at ${cut}`).toBeLessThanOrEqual(complete + 1);
      for (let i = 0; i < count; i++) {
        expect(kept!.atS[i], `cut at ${cut}`).toBe(whole.atS[i]);
        kept!.columns.forEach((column, c) => {
          expect(column[i], `cut at ${cut}`).toBe(whole.columns[c]![i]);
        });
      }
    }
  });
});

describe('any bytes', () => {
  it('give an answer that names the file: 1,000 damaged logs', () => {
    fc.assert(
      fc.property(fc.constantFrom(...samples), edits, (sample, damage) => {
        answerOf(damage.reduce(mutated, sample.bytes));
      }),
      { numRuns: 1000, seed: 20260503 },
    );
  });

  it('give an answer: a header of any format, then anything', () => {
    const heads = samples.map(({ bytes, pointEnds }) => bytes.subarray(0, pointEnds[0]!));
    fc.assert(
      fc.property(
        fc.constantFrom(new Uint8Array(0), ...heads),
        fc.oneof(
          fc.uint8Array({ maxLength: 400 }),
          fc.string({ maxLength: 400 }).map((text) => new TextEncoder().encode(text)),
        ),
        (head, rest) => {
          answerOf(Uint8Array.from([...head, ...rest]));
        },
      ),
      { numRuns: 500, seed: 7 },
    );
  });

  it.each(READERS.map((reader): [string, (typeof READERS)[number]] => [reader.format, reader]))(
    'give an answer from the %s reader even where another should have had them',
    (_, reader) => {
      for (const { bytes } of samples) {
        const answer = reader.read(bytes, FILE, {});
        expect(isFault(answer) ? answer.file : answer.provenance.file).toBe(FILE);
      }
      fc.assert(
        fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
          const answer = reader.read(bytes, FILE, {});
          expect(isFault(answer) ? answer.file : answer.provenance.file).toBe(FILE);
        }),
        { numRuns: 200, seed: 3 },
      );
    },
  );

  it('name the file where it is empty or binary', () => {
    expect(answerOf(new Uint8Array(0))).toMatchObject({ fault: true, file: FILE, code: 'empty-file' });
    const binary = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919 + (i >> 3)) & 0xff);
    expect(answerOf(binary)).toMatchObject({ fault: true, file: FILE });
    expect(answerOf(new Uint8Array(5000))).toMatchObject({ fault: true, file: FILE });
  });

  it('are read in bounded time: one endless line, one endless tag, deep nesting, a thousand columns', () => {
    const utf8 = new TextEncoder();
    const megabyte = 'x'.repeat(1_000_000);
    answerOf(utf8.encode(megabyte));
    answerOf(utf8.encode(`time_s,ax_g,ay_g,az_g\n${megabyte}`));
    answerOf(utf8.encode(`time_s,ax_g,ay_g,az_g\n"${megabyte}`));
    answerOf(utf8.encode(`<gpx><trk><trkseg><trkpt lat="45" lon="${megabyte}`));
    answerOf(utf8.encode(`<gpx>${'<a>'.repeat(100_000)}`));
    answerOf(
      utf8.encode(`${Array.from({ length: 1000 }, (_, i) => `c${i}`).join(',')}\n${'1,'.repeat(1000)}\n`),
    );
    answerOf(utf8.encode(`$GPRMC,${megabyte}`));
    answerOf(utf8.encode('$GPRMC,$'.repeat(100_000)));
  });

  it('are refused in one sentence where they are too many', () => {
    const head = 'time_s,ax_g,ay_g,az_g\n';
    const filled = (size: number, filling: string): Uint8Array => {
      const bytes = Buffer.alloc(size, filling);
      bytes.write(head);
      return bytes;
    };
    const manyLines = filled(READ_BOUNDS.samples + 100, '\n');
    expect(readLog(manyLines, FILE)).toMatchObject({ fault: true, file: FILE, code: 'too-large' });
    const oneLine = filled(3_000_000, ',');
    expect(readLog(oneLine, FILE)).toMatchObject({ fault: true, file: FILE, code: 'line-too-long' });
    const xml = Buffer.alloc(READ_BOUNDS.xmlBytes + 1, ' ');
    xml.write('<gpx><a><![CDATA[');
    expect(readLog(xml, FILE)).toMatchObject({ fault: true, file: FILE, code: 'too-large' });
  });

  it('find XML entities inert', () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 12 }, (_, i) => `<!ENTITY a${i} "${`&a${i === 0 ? '' : i - 1};`.repeat(10)}">`).join('')}<!ENTITY x SYSTEM "file:///etc/hostname">]><gpx creator="&x;&a11;"><trk><trkseg><trkpt lat="45" lon="10"><time>2026-05-03T07:00:00Z</time></trkpt></trkseg></trk></gpx>`;
    const answer = answerOf(new TextEncoder().encode(bomb));
    if (!isFault(answer)) expect(answer.provenance.device ?? '').not.toMatch(/aaaa/);
  });
});
