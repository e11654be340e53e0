import type { WarningCode } from '../../contract/severity.js';
import { logFault, type Warning } from '../../recording/index.js';
import type { ReadAnswer, Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { nmeaTimes } from './nmea-clock.js';
import { nmeaEpochs } from './nmea-epochs.js';
import { type NmeaSentence, walkNmea } from './nmea-sentence.js';

/** Bytes in which the first sentence has to stand; receivers start with a page of text or binary at most. */
const SNIFF_BYTES = 65_536;
const SENTENCE = /\$[A-Z]{2}(?:RMC|GGA|VTG|GLL|GSA|GSV|ZDA|GNS),/;

const sniff = (bytes: Uint8Array): boolean =>
  SENTENCE.test(new TextDecoder('latin1').decode(bytes.subarray(0, SNIFF_BYTES)));

const sentencesOf = (bytes: Uint8Array): NmeaSentence[] => {
  const sentences: NmeaSentence[] = [];
  walkNmea(bytes, (sentence) => sentences.push(sentence));
  return sentences;
};

type Note = (code: WarningCode, message: string) => void;

/**
 * Sentences that can be believed. Where most checksums are right, only those; where most are wrong, the logger
 * cannot make them and they tell nothing; where most are absent, all but the wrong ones.
 */
const believed = (sentences: readonly NmeaSentence[], note: Note): readonly NmeaSentence[] => {
  const count = { right: 0, wrong: 0, absent: 0 };
  for (const { checksum } of sentences) count[checksum]++;
  const { length } = sentences;
  if (count.right >= Math.max(count.wrong, count.absent)) {
    const damaged = length - count.right;
    if (damaged > 0)
      note(
        'nmea-checksum',
        `${damaged} of ${length} sentences are damaged (checksum wrong or missing) and left out`,
      );
    return sentences.filter(({ checksum }) => checksum === 'right');
  }
  if (count.wrong >= count.absent) {
    note(
      'nmea-checksums-ignored',
      `${count.wrong} of ${length} checksums are wrong, so this logger makes them wrongly and they are not used; damaged sentences cannot be found`,
    );
    return sentences;
  }
  note(
    'nmea-checksums-absent',
    `${count.absent} of ${length} sentences have no checksum, so damaged ones cannot be found`,
  );
  return sentences.filter(({ checksum }) => checksum !== 'wrong');
};

const read: Reader['read'] = (bytes, file): ReadAnswer => {
  const warnings: Warning[] = [];
  const note: Note = (code, message) => warnings.push({ code, file, where: null, message });
  const sentences = believed(sentencesOf(bytes), note);
  const epochs = nmeaEpochs(sentences);
  const hasFix = epochs.latDeg.some(Number.isFinite) || epochs.speedMps.some(Number.isFinite);
  if (sentences.length === 0)
    return logFault(
      file,
      'nmea-no-sentences',
      'the file holds no RMC, GGA or VTG sentence; set the receiver to write RMC and GGA',
    );
  if (!hasFix)
    return logFault(
      file,
      'nmea-no-fix',
      `the receiver had no fix in any of the ${sentences.length} sentences, so there is no position; wait for a fix before recording`,
    );
  if (epochs.voidCount > 0)
    note('nmea-no-fix', `${epochs.voidCount} of ${epochs.count} instants have no fix and are left out`);
  const { timesS, originUnixS } = nmeaTimes(epochs.timeOfDayS, epochs.dayS);
  if (originUnixS === null)
    note('date-missing', 'the sentences state a time of day and no date, so the date is not known');
  return recordingOfTable(
    {
      atS: timesS,
      originUnixS,
      columns: {
        position: [epochs.latDeg, epochs.lonDeg],
        elevation: [epochs.elevationM],
        speed: [epochs.speedMps],
      },
      segmentRows: [],
      laps: [],
      whereOf: (row) => `line ${epochs.line[row]}`,
    },
    { provenance: { file, format: 'nmea', device: null, sport: null }, warnings },
  );
};

/** NMEA 0183 sentences RMC, GGA and VTG (and ZDA for the date), of any talker, among anything else. */
export const nmeaReader: Reader = { format: 'nmea', sniff, read };
