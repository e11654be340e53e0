/** World Rowing's class codes, coastal ones too, and the paddled craft. */
export const CRAFT_CODES = [
  '1x',
  '2x',
  '2-',
  '2+',
  '4x',
  '4x+',
  '4-',
  '4+',
  '8x+',
  '8+',
  'CM1x',
  'CW1x',
  'CM2x',
  'CW2x',
  'CMix2x',
  'CM4x+',
  'CW4x+',
  'K1',
  'K2',
  'K4',
  'C1',
  'C2',
  'C4',
  'OC1',
  'OC2',
  'OC6',
  'V1',
  'SKI',
  'SUP',
  'dragon',
] as const;

/** One craft code. */
export type Craft = (typeof CRAFT_CODES)[number];

/** How a craft is moved, which decides its range of rates. */
export type CraftFamily = 'rowing' | 'kayak' | 'canoe' | 'dragon';

const KAYAKS: readonly Craft[] = ['K1', 'K2', 'K4', 'SKI'];
const CANOES: readonly Craft[] = ['C1', 'C2', 'C4', 'OC1', 'OC2', 'OC6', 'V1', 'SUP'];

/** The family of a craft. */
export const craftFamily = (craft: Craft): CraftFamily => {
  if (craft === 'dragon') return 'dragon';
  if (KAYAKS.includes(craft)) return 'kayak';
  return CANOES.includes(craft) ? 'canoe' : 'rowing';
};

/** Lowest and highest stroke rate of each family, spm (common practice). */
export const RATE_RANGE_SPM: Readonly<Record<CraftFamily, readonly [number, number]>> = {
  rowing: [10, 55],
  kayak: [50, 180],
  canoe: [25, 90],
  dragon: [50, 120],
};
