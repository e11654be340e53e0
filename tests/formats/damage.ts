import fc from 'fast-check';

/** One thing that happens to a file: bytes changed, lost, put in, doubled, or moved. */
const edit = fc.record({
  kind: fc.constantFrom('change', 'bit', 'lose', 'put', 'double', 'cut', 'zero'),
  place: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 1, max: 64 }),
  bytes: fc.uint8Array({ minLength: 1, maxLength: 12 }),
});
type Edit = typeof edit extends fc.Arbitrary<infer T> ? T : never;

/** One to six of them, one after the other. */
export const edits = fc.array(edit, { minLength: 1, maxLength: 6 });

/** The bytes after it. */
export const mutated = (bytes: Uint8Array, { kind, place, length, bytes: put }: Edit): Uint8Array => {
  const at = Math.floor(place * bytes.length);
  const [before, after] = [bytes.subarray(0, at), bytes.subarray(at)];
  switch (kind) {
    case 'change':
      return Uint8Array.from([...before, ...put, ...after.subarray(put.length)]);
    case 'bit':
      return bytes.map((byte, i) => (i === at ? byte ^ (1 << (length % 8)) : byte));
    case 'lose':
      return Uint8Array.from([...before, ...after.subarray(length)]);
    case 'put':
      return Uint8Array.from([...before, ...put, ...after]);
    case 'double':
      return Uint8Array.from([...before, ...after.subarray(0, length * 4), ...after]);
    case 'cut':
      return before;
    default:
      return Uint8Array.from([...before, ...new Uint8Array(length), ...after.subarray(length)]);
  }
};
