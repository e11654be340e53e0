import { homedir } from 'node:os';
import { join } from 'node:path';

/**
 * The program's folder in the user's cache (XDG base directory specification).
 * @param given another folder that the user named; null for none
 */
export const cacheFolder = (
  env: Readonly<Record<string, string | undefined>>,
  given: string | null,
): string => {
  if (given !== null) return given;
  const base = env.XDG_CACHE_HOME;
  return join(base?.startsWith('/') ? base : join(env.HOME ?? homedir(), '.cache'), 'thole');
};
