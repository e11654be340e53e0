import type { Craft } from './craft.js';

/**
 * Usual length of a craft's hull, m, for margins in lengths where no boat file tells it. Rowing: common practice
 * of builders; coastal rowing, canoes and kayaks of sprint racing: the classes' greatest lengths (value from
 * memory); others: common practice.
 */
export const HULL_LENGTH_M: Readonly<Record<Craft, number>> = {
  '1x': 8.2,
  '2x': 10.4,
  '2-': 10.4,
  '2+': 10.6,
  '4x': 13.4,
  '4x+': 13.7,
  '4-': 13.4,
  '4+': 13.7,
  '8x+': 17.6,
  '8+': 17.6,
  CM1x: 6,
  CW1x: 6,
  CM2x: 7.5,
  CW2x: 7.5,
  CMix2x: 7.5,
  'CM4x+': 10.7,
  'CW4x+': 10.7,
  K1: 5.2,
  K2: 6.5,
  K4: 11,
  C1: 5.2,
  C2: 6.5,
  C4: 8.9,
  OC1: 6.4,
  OC2: 7.5,
  OC6: 13.4,
  V1: 7.2,
  SKI: 6.4,
  SUP: 4.3,
  dragon: 12.4,
};
