import { type Craft, type CraftFamily, craftFamily } from '../units/craft.js';

/** What the simulator knows of a craft. Values are round numbers of common practice unless a source stands. */
export interface CraftModel {
  readonly family: CraftFamily;
  readonly crewCount: number;
  /** Hull, riggers, blades and a coxswain or helm, kg. */
  readonly hullKg: number;
  readonly hullLengthM: number;
  /** Drag = dragKgPerM · speed², N at m/s. */
  readonly dragKgPerM: number;
  /** Speed through the water at the reference rate with usual power, m/s. */
  readonly speedMps: number;
  readonly referenceSpm: number;
}

type Row = readonly [crew: number, hullKg: number, lengthM: number, drag: number, speedMps: number];

/** Rowing speeds at 32 spm: an eight near 5.6 m/s and a single near 4.45 m/s, between them by boat class. */
const ROWING: Readonly<Partial<Record<Craft, Row>>> = {
  '1x': [1, 18, 8.2, 3.3, 4.45],
  '2x': [2, 34, 10.4, 5.0, 4.85],
  '2-': [2, 33, 10.4, 4.9, 4.75],
  '2+': [2, 90, 10.4, 5.8, 4.4],
  '4x': [4, 66, 13.4, 8.0, 5.35],
  '4x+': [4, 122, 13.7, 8.8, 5.1],
  '4-': [4, 62, 13.4, 7.9, 5.25],
  '4+': [4, 118, 13.7, 8.7, 5.0],
  '8x+': [8, 178, 17.6, 13.4, 5.65],
  '8+': [8, 170, 17.6, 13.2, 5.6],
  CM1x: [1, 40, 6, 5.2, 3.7],
  CW1x: [1, 40, 6, 5.0, 3.4],
  CM2x: [2, 70, 7.5, 7.8, 4.1],
  CW2x: [2, 70, 7.5, 7.4, 3.8],
  CMix2x: [2, 70, 7.5, 7.6, 3.95],
  'CM4x+': [4, 220, 10.7, 13.5, 4.4],
  'CW4x+': [4, 215, 10.7, 13, 4.1],
};

/** Paddled craft at 100 (kayak), 60 (canoe) and 75 (dragon boat) single strokes a minute. */
const PADDLED: Readonly<Partial<Record<Craft, Row>>> = {
  K1: [1, 13, 5.2, 3.2, 4.6],
  K2: [2, 19, 6.5, 5.0, 5.1],
  K4: [4, 32, 11, 8.4, 5.7],
  SKI: [1, 15, 6.2, 3.8, 4.1],
  C1: [1, 14, 5.2, 3.2, 4.0],
  C2: [2, 20, 6.5, 5.2, 4.4],
  C4: [4, 34, 8.9, 9.0, 4.9],
  OC1: [1, 12, 6.4, 4.4, 3.1],
  OC2: [2, 20, 7.6, 7.0, 3.4],
  OC6: [6, 160, 13.6, 17, 3.5],
  V1: [1, 14, 7.2, 4.6, 3.1],
  SUP: [1, 13, 4.3, 6.0, 2.3],
  dragon: [20, 400, 12.5, 48, 3.6],
};

const REFERENCE_SPM: Readonly<Record<CraftFamily, number>> = {
  rowing: 32,
  kayak: 100,
  canoe: 60,
  dragon: 75,
};

/** The model of a craft. */
export const craftModel = (craft: Craft): CraftModel => {
  const row = ROWING[craft] ?? PADDLED[craft];
  if (row === undefined) throw new Error(`no model of craft ${craft}`);
  const family = craftFamily(craft);
  const [crewCount, hullKg, hullLengthM, dragKgPerM, speedMps] = row;
  return {
    family,
    crewCount,
    hullKg,
    hullLengthM,
    dragKgPerM,
    speedMps,
    referenceSpm: REFERENCE_SPM[family],
  };
};
