import { settle } from '../contract/decimals.js';
import { csvText } from './csv-text.js';
import { jsonText, ndjsonText } from './json-text.js';
import { knownColumns } from './known-columns.js';
import { markdownText } from './markdown-text.js';
import type { Reading } from './section.js';
import type { View } from './view.js';

/** The ways to write a result. */
export type Format = 'table' | 'json' | 'ndjson' | 'csv' | 'markdown' | 'geojson' | 'gpx';

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
): Promise<string> => {
  switch (format) {
    case 'json':
      return jsonText(settle(result));
    case 'ndjson':
      return ndjsonText(view.rows(settle(result)));
    case 'csv':
      return csvText(view.keys, view.cells(settle(result)));
    case 'geojson': {
      const { geojsonText } = await import('./map/geojson-text.js');
      return geojsonText(view.shapes!(settle(result)));
    }
    case 'gpx': {
      const { gpxText } = await import('./map/gpx-text.js');
      return gpxText(view.shapes!(settle(result)));
    }
    case 'markdown':
      return markdownText(view.sections(result, reading).map(knownColumns));
    case 'table': {
      const { tableText } = await import('./table-text.js');
      return tableText(view.sections(result, reading).map(knownColumns), reading);
    }
  }
};
