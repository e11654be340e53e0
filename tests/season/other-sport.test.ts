import { describe, expect, it } from 'vitest';
import { movementOfOtherSport, statedOtherSport } from '../../src/season/other-sport.js';
import type { Craft } from '../../src/units/craft.js';

describe('a log that states its sport', () => {
  it.each([
    'running',
    'Running',
    'trail_running',
    'cycling',
    'Biking',
    'e-biking',
    'Swimming',
    'open_water_swimming',
    'walking',
    'hiking',
    'sailing',
    'cross-country skiing',
    'ski touring',
    'Ride',
    'sport 17',
    'sport 25',
    'windsurfing',
  ])('%s is not of a crew', (sport) => {
    expect(statedOtherSport(sport)).toBe(`it calls itself ${sport}`);
  });

  it.each([
    'rowing',
    'Rowing',
    'indoor rowing',
    'kayaking',
    'stand-up paddling',
    'StandUpPaddling',
    'canoeing',
    'dragon boat',
    'surfski',
    'surf_ski',
    'Other',
    'generic',
    'training',
    '9',
    'sport 18',
    null,
  ])('%s is not spoken against', (sport) => {
    expect(statedOtherSport(sport)).toBeNull();
  });
});

describe('a log whose movement is not of a boat', () => {
  it.each<[string, number | null, number | null, Craft | null]>([
    ['a run, single steps', 3.1, 172, null],
    ['a run, one leg', 3.1, 86, null],
    ['a walk', 1.4, 55, null],
    ['a bicycle', 7.2, 84, null],
    ['a bicycle in a slow gear', 4.5, 62, '8+'],
    ['a swim', 1.1, 31, null],
    ['a car', 14, null, null],
  ])('%s', (_, speedMps, cadence, craft) => {
    expect(movementOfOtherSport({ speedMps, cadence }, craft)).not.toBeNull();
  });

  it.each<[string, number | null, number | null, Craft | null]>([
    ['an eight at race pace', 6.3, 40, '8+'],
    ['an eight on a stream', 7.4, 36, null],
    ['a sprint', 4.9, 50, '1x'],
    ['light rowing', 2.2, 18, null],
    ['rowing into a gale', 1.5, 26, 'CM1x'],
    ['a kayak', 3.6, 88, 'K1'],
    ['a board', 1.9, 46, 'SUP'],
    ['a dragon boat', 3.4, 75, 'dragon'],
    ['no cadence', 3.2, null, null],
    ['nothing', null, null, null],
  ])('is not %s', (_, speedMps, cadence, craft) => {
    expect(movementOfOtherSport({ speedMps, cadence }, craft)).toBeNull();
  });
});
