import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** One folder for whatever tests write, in place of the system's own: it goes with all that is in it when they end. */
export default (): (() => void) => {
  const folder = mkdtempSync(join(tmpdir(), 'thole-tests-'));
  // Open to all, as the system's own is: one test runs the tool as another user.
  chmodSync(folder, 0o755);
  process.env.TMPDIR = folder;
  return () => rmSync(folder, { recursive: true, force: true });
};
