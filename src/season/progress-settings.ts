import { CREW_VARIATION_PCT } from '../units/crew-variation.js';

/** How progress over a season is judged. */
export const PROGRESS_SETTINGS = Object.freeze({
  /** sd of the interval of a trend: 98 % lie within, so that of 100 crews without change 2 are claimed to change. */
  sds: 2.326,
  /** … and so many more make a trend that four of five such seasons would show (normal distribution). */
  powerSds: 0.842,
  /** Fewest days for a trend of its own; 6 to 10: Sen's interval has too few ranks below. */
  fewestDays: 8,
  /**
   * How much the speed of one crew differs from day to day, sd, %, where the season does not show it: 1.0 from race
   * to race and 3.0 by venue and conditions (Smith & Hopkins, Med. Sci. Sports Exerc. 2011, 43:2155-60).
   */
  crewPct: CREW_VARIATION_PCT,
  conditionsPct: 3,
  /** Speed goes with the rate to this power, 0.33 at constant work a stroke, 0.5 to 0.6 where slow strokes are light. */
  exponent: 0.45,
  /** … give or take; 0.1 to 0.2. */
  exponentSd: 0.15,
  /** Fewest outings of a band that may show a power of their own, and the least spread of their rates, as a share. */
  exponentOutings: 6,
  exponentSpread: 0.02,
  /** Fewest outings rowed at two rates that show it, how far apart those are, as a share, and how far the power between
   * bands may be from the one within them; 0.03 to 0.1: the line of speed against rate bends. */
  exponentDays: 3,
  exponentApart: 0.08,
  exponentBend: 0.05,
  /** Days in a month, for a change given in percent a month: 365.25 / 12. */
  monthDays: 30.4375,
});

/** Published day-to-day variation, crew and conditions, %. */
export const PUBLISHED_DAY_PCT: number = Math.hypot(
  PROGRESS_SETTINGS.crewPct,
  PROGRESS_SETTINGS.conditionsPct,
);
