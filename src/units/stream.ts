import { UserError } from './user-error.js';

/** The water's own movement: how fast, and the direction that it flows to. */
export interface Stream {
  readonly speedMps: number;
  /** Degrees from true north, 0 to 360, that the water flows to. */
  readonly toDeg: number;
}

/** Faster water than this is a slip of the pen, m/s: rowable tidal rivers reach about 2.5. */
const FASTEST_STREAM_MPS = 4;

/**
 * Read a stream as a person writes it, `MPS@DEG`: its speed in m/s and the direction that it flows to.
 * @throws UserError where it is none
 * @example parseStream('0.4@270') // { speedMps: 0.4, toDeg: 270 }: flows west
 */
export const parseStream = (text: string): Stream => {
  const found = /^\s*(\d+(?:\.\d+)?)\s*@\s*(\d{1,3}(?:\.\d+)?)\s*$/.exec(text);
  const speedMps = Number(found?.[1]);
  const toDeg = Number(found?.[2]);
  if (!found || speedMps > FASTEST_STREAM_MPS || toDeg > 360)
    throw new UserError(
      `"${text.trim()}" is not a stream: write its speed in m/s (at most ${FASTEST_STREAM_MPS}) and the direction it flows to in degrees, such as 0.4@270`,
    );
  return { speedMps, toDeg: toDeg % 360 };
};
