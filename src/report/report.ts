import { settle } from '../contract/decimals.js';
import { csvText, type Dialect, PLAIN_DIALECT } from './csv-text.js';
import { jsonText, ndjsonText } from './json-text.js';
import { knownColumns } from './known-columns.js';
import { markdownText } from './markdown-text.js';
import type { Reading, Section } from './section.js';
import type { View } from './view.js';

/** The ways to write a result. */
export type Format = 'table' | 'json' | 'ndjson' | 'csv' | 'tsv' | 'markdown' | 'geojson' | 'gpx';

/** The sections of a result; where a time of day stands in any of them, the first names its zone. */
const sectionsOf = <Result>(view: View<Result>, result: Result, reading: Reading): Section[] => {
  let zoned = false;
  const sections = view
    .sections(result, {
      ...reading,
      get zone() {
        zoned = true;
        return reading.zone;
      },
    })
    .map(knownColumns);
  const [first, ...rest] = sections;
  return !zoned || first === undefined
    ? sections
    : [{ ...first, notes: [...first.notes, `Times of day are ${zoneName(reading.zone)}.`] }, ...rest];
};

const zoneName = (zone: string): string => (zone === 'UTC' ? 'UTC' : `those of ${zone}`);

/**
 * A result as text. Data formats carry SI and the decimals of the contract; tables carry what a person reads, and what
 * lays them out is loaded where one is wanted.
 * @param view how this kind of result is reported
 */
export const reportText = async <Result>(
  view: View<Result>,
  result: Result,
  format: Format,
  reading: Reading,
  dialect: Dialect = PLAIN_DIALECT,
): Promise<string> => {
  switch (format) {
    case 'json':
      return jsonText(settle(result));
    case 'ndjson':
      return ndjsonText(view.rows(settle(result)));
    case 'csv':
    case 'tsv':
      return csvText(view.keys, view.cells(settle(result)), dialect, format);
    case 'geojson': {
      const { geojsonText } = await import('./map/geojson-text.js');
      return geojsonText(view.shapes!(settle(result)));
    }
    case 'gpx': {
      const { gpxText } = await import('./map/gpx-text.js');
      return gpxText(view.shapes!(settle(result)));
    }
    case 'markdown':
      return markdownText(sectionsOf(view, result, reading));
    case 'table': {
      const { tableText } = await import('./table-text.js');
      return tableText(sectionsOf(view, result, reading), reading);
    }
  }
};
