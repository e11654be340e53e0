import type { Warning } from '../recording/index.js';
import type { CrewCase, NoCrewLog } from '../regatta/index.js';
import { UserError } from '../units/user-error.js';

/**
 * Why a log that could be read gives no result.
 * @throws UserError where the course file has latitude and longitude swapped
 */
export const noLogWarning = (
  { code, swapped }: NoCrewLog,
  { entry, file }: CrewCase,
  course: string,
): Warning => {
  if (swapped)
    throw new UserError(
      `${course}: the course lies far from ${file}, and near it with latitude and longitude swapped: GeoJSON writes longitude first and latitude second, so swap them`,
    );
  const messages = {
    'no-position': `the log of "${entry.crew}" holds no track, so it gives no times`,
    elsewhere: `the log of "${entry.crew}" lies more than 20 km from the course: check that it is the right log and the right course`,
  };
  return { code: `log-${code}`, file, where: null, message: messages[code] };
};
