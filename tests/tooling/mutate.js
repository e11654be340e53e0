import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';

// Changes one token of the source at a time, in a copy of the project, and runs the tests of its folder: a change that
// no test notices survives. By hand: npm run mutate -- FOLDER [COUNT] [SEED], as in npm run mutate -- pieces 20.
// A whole mutation framework was not taken: it runs all tests that reach a line, here minutes for each change.

const [folder, count = '20', seed = '1'] = process.argv.slice(2);
if (folder === undefined || !existsSync(join('src', folder))) {
  console.error('name a folder of src, as in: npm run mutate -- pieces 20 1');
  process.exit(2);
}

/** Numbers from a seed, 0 to 1 (mulberry32, T. Ettinger 2017, public domain). */
let state = Number(seed);
const random = () => {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

const SWAPPED = {
  ' + ': ' - ',
  ' - ': ' + ',
  ' * ': ' / ',
  ' / ': ' * ',
  ' < ': ' >= ',
  ' > ': ' <= ',
  ' <= ': ' > ',
  ' >= ': ' < ',
  ' === ': ' !== ',
  ' !== ': ' === ',
  ' && ': ' || ',
  ' || ': ' && ',
  'Math.min': 'Math.max',
  'Math.max': 'Math.min',
};
const TOKEN =
  /(?<![\w.$'"`-])\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.'"`])| [+*/<>-] | [<>]= | [!=]== | && | \|\| |Math\.(?:min|max)/g;

const changed = (token) =>
  SWAPPED[token] ?? (Number(token) === 0 ? '1' : String(Number((Number(token) * 1.2).toPrecision(6))));

/** Places of a file that can be changed: no comment, no import, no text, no type. */
const placesOf = (file) => {
  const lines = readFileSync(file, 'utf8').split('\n');
  let inComment = false;
  return lines.flatMap((line, at) => {
    const starts = line.trimStart();
    if (starts.startsWith('/*')) inComment = true;
    const skipped =
      inComment || /^(\/\/|import |export \*|} from|interface |(export )?type |readonly )/.test(starts);
    if (line.includes('*/')) inComment = false;
    if (skipped) return [];
    const code = line.replace(/\/\/.*$/, '').replace(/'[^']*'|`[^`]*`/g, (text) => ' '.repeat(text.length));
    return [...code.matchAll(TOKEN)].map((found) => ({ file, at, from: found.index, token: found[0] }));
  });
};

const copy = mkdtempSync(join(tmpdir(), 'thole-mutate-'));
for (const name of ['src', 'tests', 'samples', 'man', 'bin', 'package.json', 'tsconfig.json', 'README.md'])
  cpSync(name, join(copy, name), { recursive: true });
for (const name of ['node_modules', 'dist']) symlinkSync(resolve(name), join(copy, name));

const files = readdirSync(join('src', folder), { recursive: true })
  .map((name) => join('src', folder, name))
  .filter((name) => name.endsWith('.ts') && basename(name) !== 'index.ts');
const places = files.flatMap(placesOf);

/** The tests of a folder, and those against outside values. */
const tests = [`tests/${folder}/`, `tests/reference/${folder}`];
const run = () =>
  spawnSync('npx', ['vitest', 'run', '--config', 'tests/tooling/vitest.config.ts', '--bail', '1', ...tests], {
    cwd: copy,
    encoding: 'utf8',
    timeout: 600_000,
  });

try {
  const whole = run();
  if (whole.status !== 0)
    throw new Error(`the tests fail before anything is changed:\n${whole.stdout.slice(-2000)}`);
  let survived = 0;
  const drawn = Math.min(Number(count), places.length);
  for (let i = 0; i < drawn; i++) {
    const [{ file, at, from, token }] = places.splice(Math.floor(random() * places.length), 1);
    const text = readFileSync(file, 'utf8');
    const lines = text.split('\n');
    const line = lines[at];
    lines[at] = line.slice(0, from) + changed(token) + line.slice(from + token.length);
    writeFileSync(join(copy, file), lines.join('\n'));
    const noticed = run().status !== 0;
    writeFileSync(join(copy, file), text);
    if (!noticed) survived++;
    console.log(
      `${noticed ? 'noticed ' : 'SURVIVED'} ${file}:${at + 1} ${token.trim()} to ${changed(token).trim()} | ${line.trim()}`,
    );
  }
  console.log(
    `${survived} of ${drawn} changes in src/${folder} survived (${places.length + drawn} places, seed ${seed})`,
  );
} finally {
  rmSync(copy, { recursive: true });
}
