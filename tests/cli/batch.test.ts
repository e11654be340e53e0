import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { expect, it } from 'vitest';

const LOG = 'samples/outing/outing.gpx';

it('leaves no word and no worker behind when it is killed in the midst of its work', async () => {
  const run = spawn(
    process.execPath,
    [resolve('bin/thole.js'), 'outing', LOG, LOG, '--jobs', '2', '--quiet'],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  // the workers hold standard output, too: it ends when the last of them has
  const said = Promise.all([text(run.stdout), text(run.stderr)]);
  const ended = once(run, 'exit');
  setTimeout(() => run.kill('SIGKILL'), 450);
  expect(await ended).toEqual([null, 'SIGKILL']);
  expect(await said).toEqual(['', '']);
});
