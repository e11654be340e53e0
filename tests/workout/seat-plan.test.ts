import { describe, expect, it } from 'vitest';
import { parseSeatPlan } from '../../src/workout/index.js';

const HEADING = 'piece,boat,bow,stroke,order,wind_mps';
const plan = (...lines: string[]) => parseSeatPlan([HEADING, ...lines].join('\n'), 'plan.csv');

const GOOD = ['1,red,Ada,Bo,1,2.5', '1,blue,Cy,Di,1,', '2,red,Cy,Bo,2,', '2,blue,Ada,Di,2,3'];

describe('a plan of seat racing', () => {
  it('says who sat where, piece by piece', () => {
    const pieces = plan(...GOOD);
    expect(pieces.map(({ piece, windMps }) => [piece, windMps])).toEqual([
      ['1', 2.5],
      ['2', 3],
    ]);
    expect(pieces[1]!.lineups.map(({ boat, seats }) => [boat, seats])).toEqual([
      ['red', { bow: 'Cy', stroke: 'Bo' }],
      ['blue', { bow: 'Ada', stroke: 'Di' }],
    ]);
  });

  it('goes by the order where one is given', () => {
    const pieces = plan(
      'late,red,Ada,Bo,2,',
      'late,blue,Cy,Di,,',
      'early,red,Cy,Bo,1,',
      'early,blue,Ada,Di,1,',
    );
    expect(pieces.map(({ piece }) => piece)).toEqual(['early', 'late']);
  });

  it.each([
    [
      'a boat on its own',
      ['1,red,Ada,Bo,,', '2,red,Cy,Bo,,', '2,blue,Ada,Di,,'],
      /line 2, column piece: only one boat rows piece "1"/,
    ],
    ['one piece', GOOD.slice(0, 2), /plan\.csv has one piece: a swap shows between two/],
    ['no piece', [], /plan\.csv has no piece/],
    [
      'a boat twice',
      [GOOD[0]!, GOOD[0]!, ...GOOD.slice(2)],
      /line 3, column boat: "red" rows piece "1" in line 2 already/,
    ],
    [
      'one person in two seats',
      ['1,red,Ada,Bo,,', '1,blue,Ada,Di,,', ...GOOD.slice(2)],
      /line 3, column bow: "Ada" sits in piece "1" twice, in line 2 too/,
    ],
    ['nobody aboard', ['1,red,,,,', ...GOOD.slice(1)], /line 2, column boat: no one/],
    [
      'an empty seat',
      [...GOOD.slice(0, 3), '2,blue,Ada,,2,'],
      /line 5, column stroke: seat stroke of "blue" is empty here and taken in line 3/,
    ],
    ['no name of a boat', ['1,,Ada,Bo,,', ...GOOD.slice(1)], /line 2, column boat: the boat is missing/],
    [
      'a wind that is none',
      ['1,red,Ada,Bo,1,strong', ...GOOD.slice(1)],
      /line 2, column wind_mps: "strong" is not a number from -40 to 40/,
    ],
    [
      'two winds',
      ['1,red,Ada,Bo,1,2', '1,blue,Cy,Di,1,4', ...GOOD.slice(2)],
      /line 3, column wind_mps: 4 came, and line 2 gives the same piece 2/,
    ],
    [
      'an order for some',
      ['1,red,Ada,Bo,,', '1,blue,Cy,Di,,', ...GOOD.slice(2)],
      /line 2, column order: the order is missing/,
    ],
  ])('refuses %s with line and column', (_, lines, message) => {
    expect(() => plan(...lines)).toThrow(message);
  });

  it('refuses a column that it does not know', () => {
    expect(() => parseSeatPlan('piece,boat,bow,strok\n', 'plan.csv')).toThrow(
      /plan\.csv, line 1, column 4: "strok" is not a column/,
    );
  });
});
