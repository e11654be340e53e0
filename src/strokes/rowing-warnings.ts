import type { Warning } from '../recording/index.js';
import type { DoubtedStretch } from './rowing-judgement.js';
import { ROWING_SETTINGS } from './rowing-settings.js';

const isClear = ({ byTrack, probability }: DoubtedStretch): boolean =>
  byTrack || probability < 1 - ROWING_SETTINGS.sureProbability;

const whyOf = (stretch: DoubtedStretch, hasTrack: boolean): string => {
  if (stretch.byTrack) return 'the boat did not move as strokes move it';
  const why = isClear(stretch)
    ? 'its cycles differ from one another as those of waves do'
    : 'this log cannot show whether they are strokes or waves';
  return hasTrack ? why : `${why}: a track beside it would tell, or a boat file from thole gauge`;
};

const rowingWarning = (stretch: DoubtedStretch, hasTrack: boolean, file: string): Warning => {
  const { fromS, toS, count, leftOut, probability } = stretch;
  const where = `${fromS.toFixed(0)} to ${toS.toFixed(0)} s`;
  const chance = probability.toFixed(2);
  if (!leftOut)
    return {
      code: 'rowing-doubtful',
      file,
      where,
      message: `These strokes may be waves (the chance that they are strokes is ${chance}): check what was done then before you use them.`,
    };
  return {
    code: isClear(stretch) ? 'not-rowed' : 'rowing-doubtful',
    file,
    where,
    message: `No strokes are counted here, though something repeats ${count} times: ${whyOf(stretch, hasTrack)}.`,
  };
};

/** What has to be said of stretches that were left out, or nearly so; a stroke or two by chance are not worth a line. */
export const rowingWarnings = (
  doubted: readonly DoubtedStretch[],
  hasTrack: boolean,
  file: string,
): Warning[] =>
  doubted
    .filter(({ count }) => count >= ROWING_SETTINGS.leastCycles)
    .map((stretch) => rowingWarning(stretch, hasTrack, file));
