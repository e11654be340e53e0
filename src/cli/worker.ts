import { serveJobs } from '../host/worker-pool.js';
import { doJob, type LogJob } from './log-jobs.js';

/** A worker's own script: do the jobs that come. */
serveJobs((job: LogJob) => doJob(job));
