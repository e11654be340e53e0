/** A result of one log: the frame, and lists. */
interface Mergeable {
  readonly schema: string;
}

/**
 * Results of several logs as one: every list is the lists of all, one after the other; what is no list comes
 * from the first.
 */
export const merged = <Result extends Mergeable>(first: Result, rest: readonly Result[]): Result =>
  Object.fromEntries(
    Object.entries(first).map(([key, value]) => [
      key,
      Array.isArray(value)
        ? [first, ...rest].flatMap((result) => (result as Record<string, unknown>)[key] as unknown[])
        : value,
    ]),
  ) as Result;
