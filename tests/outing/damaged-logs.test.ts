import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspectResult } from '../../src/contract/inspect.js';
import { isFault, readLog } from '../../src/formats/index.js';
import { inspectResultOf, openOuting } from '../../src/outing/index.js';
import { edits, mutated } from '../formats/damage.js';
import { sampleLogs } from '../formats/sample-logs.js';

const samples = sampleLogs(30);

describe('a damaged log', () => {
  it('goes all the way to a verdict, whatever its damage left of it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...samples), edits, (sample, damage) => {
        const answer = readLog(damage.reduce(mutated, sample.bytes), 'a.log');
        if (isFault(answer)) return;
        const result = inspectResultOf(openOuting([answer], { craft: '1x' }));
        expect(inspectResult.safeParse(result).error).toBeUndefined();
      }),
      { numRuns: 300, seed: 11 },
    );
  });
});
