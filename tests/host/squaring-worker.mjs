/** A worker that squares numbers, the early ones slowly; 13 is a mistake of the user. */
process.on('message', ({ index, job }) => {
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
