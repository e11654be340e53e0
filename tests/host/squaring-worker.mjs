import { parentPort } from 'node:worker_threads';

/** A worker that squares numbers, the early ones slowly; 13 is a mistake of the user. */
parentPort.on('message', ({ index, job }) => {
  setTimeout(
    () =>
      parentPort.postMessage(
        job === 13
          ? { index, error: { user: true, message: 'thirteen', stack: '' } }
          : { index, value: job * job },
      ),
    index < 4 ? 40 : 0,
  );
});
