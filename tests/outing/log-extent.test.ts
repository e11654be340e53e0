import { expect, it } from 'vitest';
import { logExtentM } from '../../src/outing/log-extent.js';
import type { Channel } from '../../src/recording/index.js';

const position = (lat: readonly number[], lon: readonly number[]): Channel => ({
  name: 'position',
  atS: Float64Array.from(lat, (_, i) => i),
  columns: [Float64Array.from(lat), Float64Array.from(lon)],
  gaps: [],
});

it('is the diagonal of the box: GeodTest-short (Karney, Zenodo 32156), 249.4508219 m', () => {
  const extentM = logExtentM(position([23.104245923137, 23.1035204302805], [0, 0.00230523747011909]));
  // The box runs from south-west to north-east; the same box by its other diagonal differs by micrometres.
  expect(extentM).toBeCloseTo(249.4508219, 1);
});

it('is not torn by the date line, and 0 at one place', () => {
  const across = logExtentM(position([45, 45], [179.9995, -179.9995]));
  expect(across).toBeCloseTo(logExtentM(position([45, 45], [0, 0.001])), 6);
  expect(logExtentM(position([45], [10]))).toBe(0);
});
