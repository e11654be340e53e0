/** A worker that squares numbers, the early ones slowly; 13 is a mistake of the user, 17 its death, 19 hangs. */
process.on('message', ({ index, job }) => {
  if (job === 17) process.abort();
  if (job === 19) for (;;);
  setTimeout(
    () =>
      process.send(
        job === 13
          ? { index, error: { user: true, message: 'thirteen', stack: '' } }
          : { index, value: job * job },
      ),
    index < 4 ? 40 : 0,
  );
});
process.send('ready');
