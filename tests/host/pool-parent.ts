import { pathToFileURL } from 'node:url';
import { pooled } from '../../src/host/worker-pool.js';

// A process that waits for the answer of one worker.
for await (const _ of pooled(
  pathToFileURL(process.argv[2]!),
  [1],
  1,
  () => 1,
  () => null,
));
