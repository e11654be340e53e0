/** Halvings: a step of 1 s to 1e-12 s. */
const HALVINGS = 40;

/**
 * The place between two at which something turns, closed in from both sides by halving.
 * @param isBefore true of places before the turn; true at `low`, and false at `high`, unasked
 */
export const bisected = (
  low: number,
  high: number,
  isBefore: (place: number) => boolean,
): { readonly before: number; readonly after: number } => {
  let [before, after] = [low, high];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (before + after) / 2;
    if (isBefore(middle)) before = middle;
    else after = middle;
  }
  return { before, after };
};
