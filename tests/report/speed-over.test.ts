import { expect, it } from 'vitest';
import { speedOverNotes } from '../../src/report/speed-over.js';

const rows = (...over: readonly ('ground' | 'water' | null)[]) => over.map((speed_over) => ({ speed_over }));

it('names what speeds go over, once, and both where both are among them', () => {
  expect(speedOverNotes(rows('ground', 'ground', null))).toEqual(['Speeds are over ground.']);
  expect(speedOverNotes(rows('water', 'water'))).toEqual([
    'Speeds are through the water; distances are over ground.',
  ]);
  expect(speedOverNotes(rows('ground', 'water'))).toEqual([
    'Speeds are through the water where the stream is known, else over ground; distances are over ground.',
  ]);
});

it('says nothing where no speed is known', () => {
  expect(speedOverNotes(rows(null))).toEqual([]);
  expect(speedOverNotes([])).toEqual([]);
});
