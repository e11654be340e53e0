/** CRC-16/ARC (reflected polynomial 0xA001, start 0), a byte at a time. */
const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  return crc;
});

/**
 * Checksum of a FIT file's bytes from `from` up to `to`.
 * @example fitCrc(new TextEncoder().encode('123456789'), 0, 9) // 0xbb3d
 */
export const fitCrc = (bytes: Uint8Array, from: number, to: number): number => {
  let crc = 0;
  for (let i = from; i < to; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]!) & 0xff]!;
  return crc;
};
