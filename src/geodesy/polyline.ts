import { geodesicBetween } from './geodesic.js';
import type { Place } from './place.js';
import { stepBetween } from './step.js';

/** The foot of a place on a polyline. */
export interface Foot {
  /** Along the polyline from its first vertex, m. */
  readonly alongM: number;
  /** Distance from the polyline, m, at least 0. */
  readonly offsetM: number;
  /** The leg that holds the foot, from 0. */
  readonly leg: number;
}

/** A line with corners, such as the centreline of a course, ready to be asked for many places. */
export interface Polyline {
  readonly vertices: readonly Place[];
  /** Along the polyline at each vertex, m. */
  readonly alongM: readonly number[];
  readonly lengthM: number;
  /**
   * The nearest point of the polyline. With a window only what lies within it along the line is looked at, so
   * that a river that bends back on itself does not catch a boat on the wrong reach.
   * @returns null where the window holds nothing
   */
  readonly footOf: (place: Place, window?: { readonly fromM: number; readonly toM: number }) => Foot | null;
}

/**
 * A polyline through places; legs are geodesics.
 * @returns null with fewer than two places that differ
 */
export const polylineThrough = (places: readonly Place[]): Polyline | null => {
  const vertices = places.filter(
    (place, i) => i === 0 || place.latDeg !== places[i - 1]!.latDeg || place.lonDeg !== places[i - 1]!.lonDeg,
  );
  if (vertices.length < 2) return null;
  const alongM = [0];
  for (let i = 1; i < vertices.length; i++)
    alongM.push(alongM[i - 1]! + geodesicBetween(vertices[i - 1]!, vertices[i]!).distanceM);
  const lengthM = alongM[alongM.length - 1]!;

  const footOf: Polyline['footOf'] = (place, window = { fromM: 0, toM: lengthM }) => {
    let best: Foot | null = null;
    for (let leg = 0; leg + 1 < vertices.length; leg++) {
      const [startM, endM] = [alongM[leg]!, alongM[leg + 1]!];
      if (endM < window.fromM || startM > window.toM) continue;
      const step = stepBetween(vertices[leg]!, vertices[leg + 1]!);
      const reach = stepBetween(vertices[leg]!, place);
      const square = step.eastM * step.eastM + step.northM * step.northM;
      const free = (reach.eastM * step.eastM + reach.northM * step.northM) / square;
      const lowest = Math.max(0, (window.fromM - startM) / (endM - startM));
      const highest = Math.min(1, (window.toM - startM) / (endM - startM));
      const share = Math.min(highest, Math.max(lowest, free));
      const offsetM = Math.hypot(reach.eastM - share * step.eastM, reach.northM - share * step.northM);
      if (best === null || offsetM < best.offsetM)
        best = { alongM: startM + share * (endM - startM), offsetM, leg };
    }
    return best;
  };
  return { vertices, alongM, lengthM, footOf };
};
