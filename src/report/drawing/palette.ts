/**
 * Colours that colour-blind readers can tell apart: Okabe and Ito, Color Universal Design (2002, revised 2008),
 * https://jfly.uni-koeln.de/color/. Of the eight, those that stand out from white serve on a light page and those
 * that stand out from black on a dark one. A line has a pattern of dashes besides, for no colour stands alone.
 */
export const PALETTE = Object.freeze({
  light: ['#0072b2', '#d55e00', '#009e73', '#cc79a7', '#000000', '#e69f00', '#56b4e9'],
  dark: ['#56b4e9', '#e69f00', '#009e73', '#cc79a7', '#ffffff', '#f0e442', '#d55e00'],
  dashes: ['none', '7 3', '2 3', '9 3 2 3', '12 4', '4 2', '1 4'],
});

/** How many lines can be distinguished. */
export const SERIES_COUNT = PALETTE.light.length;

/** The class that gives a line its colour and its dashes. */
export const seriesClass = (index: number): string => `c${(index % SERIES_COUNT) + 1}`;
