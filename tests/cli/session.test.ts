import { Readable, Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { openSession } from '../../src/cli/session.js';

const FAULT = {
  fault: true,
  code: 'is-folder',
  file: 'a.gpx',
  where: null,
  message: 'it is a folder',
} as const;
const WARNING = { code: 'cut-off', file: 'b.gpx', where: null, message: 'The log is cut off.' } as const;
const NOTE = { ...WARNING, code: 'strokes-from-cadence' } as const;

const opened = (options: { strict?: boolean; quiet?: boolean }, terminal = false) => {
  const written: string[] = [];
  const stderr = Object.assign(
    new Writable({
      write: (chunk, _encoding, done) => {
        written.push(String(chunk));
        done();
      },
    }),
    { isTTY: terminal },
  );
  const session = openSession({ stdin: Readable.from([]), stdout: new Writable(), stderr, env: {} }, options);
  return { session, written };
};

describe('a session', () => {
  it('ends with 3 for a log that could not be read, else with 1 for a broken rule, else with 0', () => {
    const { session } = opened({});
    expect(session.status()).toBe(0);
    session.broken();
    expect(session.status()).toBe(1);
    session.fault(FAULT);
    expect(session.status()).toBe(3);
  });

  it('takes a warning for a failure where it is strict, told or not', () => {
    for (const quiet of [false, true]) {
      const { session } = opened({ strict: true, quiet });
      session.warn([NOTE]);
      expect(session.status()).toBe(0);
      session.warn([WARNING]);
      expect(session.status()).toBe(1);
    }
  });

  it('tells errors even where it is quiet', () => {
    const { session, written } = opened({ quiet: true });
    session.warn([WARNING]);
    session.fault(FAULT);
    expect(written).toEqual(['thole: error: a.gpx: It is a folder.\n']);
  });

  it('shows progress on a terminal only, and clears it before it speaks', () => {
    const plain = opened({});
    plain.session.progress(1, 3);
    expect(plain.written).toEqual([]);
    const { session, written } = opened({}, true);
    session.progress(1, 3);
    session.fault(FAULT);
    session.progress(3, 3);
    expect(written).toEqual([
      '\r1 of 3 logs',
      '\r\u001b[K',
      'thole: error: a.gpx: It is a folder.\n',
      '\r\u001b[K',
    ]);
  });
});
