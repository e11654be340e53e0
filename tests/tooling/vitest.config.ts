import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Tests that replace a module by one of their own, which no other test may meet. */
const REPLACING = ['tests/cli/season-job.test.ts'];

const shared = {
  root: fileURLToPath(new URL('../..', import.meta.url)),
  setupFiles: ['tests/tooling/drawn-cases.ts'],
  testTimeout: 60_000,
  hookTimeout: 60_000,
};

export default defineConfig({
  test: {
    root: shared.root,
    maxWorkers: 2,
    globalSetup: ['tests/tooling/temporary-folder.ts'],
    projects: [
      {
        // Modules are loaded once a worker, and the engine stays warm.
        test: {
          ...shared,
          name: 'tests',
          include: ['tests/**/*.test.ts'],
          exclude: REPLACING,
          isolate: false,
        },
      },
      { test: { ...shared, name: 'replacing', include: REPLACING } },
    ],
  },
});
