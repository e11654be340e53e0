import { median } from '../signal/index.js';
import type { Template } from './matched-filter.js';
import type { RateLimits, StrokeEvent } from './stroke-events.js';
import { EVENT_SETTINGS, LEARNING_SETTINGS } from './stroke-settings.js';
import { forwardness, learnTemplate } from './template.js';

/** Interval around each stroke, s: the median of its own and its neighbours'; null for one that stands alone. */
const intervalsAround = (events: readonly StrokeEvent[], rateLimits: RateLimits): (number | null)[] => {
  const gap = (i: number): number[] => {
    if (i < 1 || i >= events.length) return [];
    const intervalS = (events[i]!.position - events[i - 1]!.position) / EVENT_SETTINGS.rateHz;
    return intervalS <= rateLimits.mostIntervalS ? [intervalS] : [];
  };
  return events.map((_, i) => {
    const near = [gap(i - 1), gap(i), gap(i + 1), gap(i + 2)].flat();
    return near.length === 0 ? null : median(near);
  });
};

interface Timed {
  readonly event: StrokeEvent;
  readonly intervalS: number;
}

/** Strokes parted by their rate into ranges that each have enough to learn from. */
const byRate = (timed: readonly Timed[]): (readonly Timed[])[] => {
  const { rateRanges, rangeStrokes, rangeRatio } = LEARNING_SETTINGS;
  const sorted = [...timed].sort((p, q) => p.intervalS - q.intervalS);
  const ranges: Timed[][] = [];
  let from = 0;
  for (let i = 0; i < sorted.length; i++) {
    const wide = sorted[i]!.intervalS / sorted[from]!.intervalS >= rangeRatio;
    const enough = i - from >= rangeStrokes && sorted.length - i >= rangeStrokes;
    if (wide && enough && ranges.length < rateRanges - 1) {
      ranges.push(sorted.slice(from, i));
      from = i;
    }
  }
  ranges.push(sorted.slice(from));
  return ranges;
};

/** Ranges whose strokes stand out of the noise as those of the log do: what does not is noise taken for strokes. */
const standing = (ranges: readonly (readonly Timed[])[]): readonly (readonly Timed[])[] => {
  const sds = (range: readonly Timed[]): number => median(range.map(({ event }) => event.noiseSds));
  const least = LEARNING_SETTINGS.standingShare * sds(ranges.flat());
  const kept = ranges.filter((range) => sds(range) >= least);
  return kept.length > 0 ? kept : ranges;
};

/** Templates learnt from strokes, one for each range of rates, and which of them is due at each sample. */
export const rateTemplates = (
  values: Float64Array,
  events: readonly StrokeEvent[],
  rateLimits: RateLimits,
): { readonly templates: readonly Template[]; readonly due: Uint8Array } | null => {
  const intervals = intervalsAround(events, rateLimits);
  const timed = events.flatMap((event, i) => {
    const intervalS = intervals[i]!;
    return intervalS === null ? [] : [{ event, intervalS }];
  });
  if (timed.length < LEARNING_SETTINGS.leastStrokes) return null;
  const ranges = standing(byRate(timed)).map((range) => {
    // a stroke that noise may have lowered is as good as any: to leave it out would keep those that noise has raised
    const strong = range.filter(
      ({ event: { share, noiseSds } }) =>
        share * (1 + 1 / Math.max(LEARNING_SETTINGS.lowestSds, noiseSds)) > LEARNING_SETTINGS.leastShare,
    );
    return {
      marks: strong.map(({ event }) => event.position).sort((p, q) => p - q),
      intervalS: median(range.map((one) => one.intervalS)),
    };
  });
  const learnt = (forward: 1 | -1) =>
    ranges.flatMap(({ marks, intervalS }) => {
      const template = learnTemplate(values, marks, intervalS, EVENT_SETTINGS.rateHz, forward);
      return template ? [{ template, intervalS }] : [];
    });
  const upright = learnt(1);
  const skew = upright.reduce((sum, { template }) => sum + forwardness(template.values), 0);
  // an average that shows no check one way may show it the other
  const made = skew < 0 || upright.length === 0 ? learnt(-1) : upright;
  if (made.length === 0) return null;
  const nearest = timed.map(({ intervalS }) => {
    let best = 0;
    for (let k = 1; k < made.length; k++)
      if (
        Math.abs(Math.log(made[k]!.intervalS / intervalS)) <
        Math.abs(Math.log(made[best]!.intervalS / intervalS))
      )
        best = k;
    return best;
  });
  const due = new Uint8Array(values.length);
  let next = 0;
  for (let i = 0; i < due.length; i++) {
    while (
      next + 1 < timed.length &&
      Math.abs(timed[next + 1]!.event.position - i) < Math.abs(timed[next]!.event.position - i)
    )
      next++;
    due[i] = nearest[next]!;
  }
  return { templates: made.map(({ template }) => template), due };
};
