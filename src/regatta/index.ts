export type { CrewLog } from './crew-log.js';
export { type Entry, parseEntries } from './entries.js';
export { rank } from './ranking.js';
export { type NoCrewLog, readCrew } from './read-crew.js';
export { type RegattaAsk, regattaResults } from './regatta.js';
export { stationsOf } from './station.js';
export type { CrewCase } from './timed-crew.js';
