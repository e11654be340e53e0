/**
 * True where all values are finite: 0 times what is not finite is no number, and stays so in a sum. Four sums, for
 * one addition waits for the one before it.
 */
export const areFinite = (values: Float64Array): boolean => {
  let one = 0;
  let two = 0;
  let three = 0;
  let four = 0;
  let i = 0;
  for (; i + 4 <= values.length; i += 4) {
    one += values[i]! * 0;
    two += values[i + 1]! * 0;
    three += values[i + 2]! * 0;
    four += values[i + 3]! * 0;
  }
  for (; i < values.length; i++) one += values[i]! * 0;
  return one + two + three + four === 0;
};
