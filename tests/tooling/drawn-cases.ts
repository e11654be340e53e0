import fc from 'fast-check';

// Property tests draw the same cases every time, so that a failure belongs to the change at hand. DRAW=7 draws others.
fc.configureGlobal({ seed: Number(process.env.DRAW ?? 1) });
