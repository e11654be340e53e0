import { writeSync } from 'node:fs';
import { serveJobs } from '../../src/host/worker-pool.js';

// A worker that says its number and then never ends a job.
serveJobs(async () => {
  writeSync(1, String(process.pid));
  for (;;);
});
