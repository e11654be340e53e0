import { expect, it } from 'vitest';
import { fitCrc } from '../../../src/formats/fit/fit-crc.js';

it('gives 0xBB3D for "123456789" (CRC-16/ARC check value)', () => {
  expect(fitCrc(new TextEncoder().encode('123456789'), 0, 9)).toBe(0xbb3d);
});
