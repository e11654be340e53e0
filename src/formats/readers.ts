import { csvReader } from './csv/csv-reader.js';
import { fitReader } from './fit/fit-reader.js';
import { gpxReader } from './gpx/gpx-reader.js';
import { nmeaReader } from './nmea/nmea-reader.js';
import type { Reader } from './reader.js';
import { tcxReader } from './tcx/tcx-reader.js';

/** Every format that is read, in the order in which they are tried: what is surest to be known comes first. */
export const READERS: readonly Reader[] = [fitReader, gpxReader, tcxReader, nmeaReader, csvReader];
