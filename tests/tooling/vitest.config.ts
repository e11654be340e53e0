import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/tooling/drawn-cases.ts'],
    // Modules are loaded once a worker: no test changes what another one imports, and the engine stays warm.
    isolate: false,
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
