import type { Warning } from '../recording/index.js';

/** Warnings without those that say of the same place what was said before. */
export const distinctWarnings = (warnings: readonly Warning[]): Warning[] => {
  const said = new Set<string>();
  return warnings.filter(({ code, file, where }) => {
    const key = JSON.stringify([code, file, where]);
    if (said.has(key)) return false;
    said.add(key);
    return true;
  });
};
