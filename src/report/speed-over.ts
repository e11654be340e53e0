/** What a speed goes over, in words. */
export const SPEED_OVER = { ground: 'over ground', water: 'through the water' } as const;

/** A line that says what the speeds of rows go over; none where no row says it. */
export const speedOverNotes = (
  rows: readonly { readonly speed_over: 'ground' | 'water' | null }[],
): string[] => {
  const over = [...new Set(rows.flatMap(({ speed_over }) => (speed_over === null ? [] : [speed_over])))];
  if (over.length === 2)
    return [
      'Speeds are through the water where the stream is known, else over ground; distances are over ground.',
    ];
  return over.map((one) =>
    one === 'water' ? 'Speeds are through the water; distances are over ground.' : 'Speeds are over ground.',
  );
};
