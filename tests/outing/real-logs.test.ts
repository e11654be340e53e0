import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settle } from '../../src/contract/decimals.js';
import { outingRow } from '../../src/contract/outing.js';
import { pieceRow as pieceShape } from '../../src/contract/pieces.js';
import { isFault, readLog } from '../../src/formats/index.js';
import { openOuting, summarise } from '../../src/outing/index.js';
import { findPieces, pieceRow } from '../../src/pieces/index.js';

/** Logs that others recorded; they lie beside the project, never in it. */
const FOLDER = process.env.THOLE_LOGS ?? '../shared/logs';
const here = existsSync(FOLDER);
if (!here) process.stderr.write(`real logs not found in ${FOLDER}: their tests are skipped\n`);
const named = (pattern: RegExp) =>
  here ? readdirSync(FOLDER).filter((name) => pattern.test(name)) : ['none'];

const opened = (file: string, ask: Parameters<typeof openOuting>[1] = {}) => {
  const log = readLog(readFileSync(`${FOLDER}/${file}`), file, {});
  if (isFault(log)) throw new Error(`${file}: ${log.message}`);
  return openOuting([log], ask);
};

describe.skipIf(!here)('logs that others recorded', () => {
  it.each(named(/\.(gpx|tcx)$/))('%s gives an outing', (file) => {
    const outing = opened(file);
    const found = findPieces(outing, { kind: 'unaided' });
    const { row } = summarise(outing, { pieceCount: found.pieces.length });
    expect(() => outingRow.parse(settle(row))).not.toThrow();
    for (const [i, piece] of found.pieces.entries())
      expect(() => pieceShape.parse(settle(pieceRow(outing, piece, i + 1)))).not.toThrow();
    if (row.distance_m !== null) expect(row.distance_m).toBeLessThanOrEqual(row.over_ground_m! + 1e-6);
    if (row.rowing_s !== null) expect(row.rowing_s).toBeLessThanOrEqual(row.duration_s + 4);
    if (row.stroke_count === null) expect(outing.warnings.map(({ code }) => code)).toContain('no-strokes');
  });

  it.each(named(/^imu-rowing-ergometer-.*\.csv$/))('%s gives strokes of a body-worn sensor', (file) => {
    const outing = opened(file, { placement: 'body' });
    expect(outing.strokes.strokes.length).toBeGreaterThan(80);
    expect(outing.warnings.map(({ code }) => code)).toContain('placement-not-hull');
    expect(outing.strokes.strokes.every(({ speedVariation }) => speedVariation === null)).toBe(true);
  });
});
