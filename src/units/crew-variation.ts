/**
 * How much one crew's time differs from one race, and so one day, to the next, sd, %: 1.1 single sculls, 0.9 crews
 * (Smith & Hopkins, Med. Sci. Sports Exerc. 2011, 43:2155-60), conditions taken out.
 */
export const CREW_VARIATION_PCT = 1;
