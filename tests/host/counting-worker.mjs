/** A worker that answers how many jobs it did before. */
let done = 0;
process.on('message', ({ index }) => process.send({ index, value: done++ }));
process.send('ready');
