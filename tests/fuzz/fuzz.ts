import { spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import fc from 'fast-check';
import { fuzzCase } from './fuzz-case.js';
import { fuzzFolder } from './fuzz-run.js';

// npm run fuzz -- COUNT SEED: so many damaged logs, drawn by a seed; npm run fuzz -- one INDEX SEED: one of them, whose
// log is left in build/fuzz. A process of its own runs them one by one, so
// that a case that ends it, hangs or fills the memory is known by its number. What fails is kept in build/fuzz.

/** What no case may take: processor time, for others may be at work on the machine, and memory. */
const MOST = Object.freeze({ ms: 20_000, rssMb: 1024 });
/** Cases that are drawn together: what is drawn belongs to the number of its share. */
const SHARE = 500;

interface Answer {
  readonly index: number;
  readonly ms: number;
  readonly rssMb: number;
  readonly wrong: readonly string[];
  readonly shown: string;
}

const casesOf = (seed: number, index: number) =>
  fc.sample(fuzzCase, { numRuns: SHARE, seed: seed + Math.floor(index / SHARE) * 1_000_003 });

const work = async (from: number, to: number, seed: number): Promise<void> => {
  const folder = fuzzFolder();
  let cases = casesOf(seed, from);
  for (let index = from; index < to; index++) {
    if (index % SHARE === 0) cases = casesOf(seed, index);
    const tried = cases[index % SHARE]!;
    process.stdout.write(`${JSON.stringify({ begun: index, shown: tried.shown })}\n`);
    const before = process.cpuUsage();
    const wrong = await folder.run(tried);
    const spent = process.cpuUsage(before);
    const answer: Answer = {
      index,
      ms: Math.round((spent.user + spent.system) / 1000),
      rssMb: Math.round(process.resourceUsage().maxRSS / 1024),
      wrong,
      shown: tried.shown,
    };
    process.stdout.write(`${JSON.stringify(answer)}\n`);
    // The peak of a process never falls: one that a case drove up hides those of the next.
    if (answer.rssMb > MOST.rssMb / 2) process.exit(0);
  }
  folder.close();
};

/** What a stretch of cases gave, in a process of its own; ends where the process does. */
const stretch = (from: number, to: number, seed: number, take: (answer: Answer) => void): Promise<number> =>
  new Promise((done) => {
    const child = spawn(
      process.execPath,
      [process.argv[1]!, 'work', String(from), String(to), String(seed)],
      {
        stdio: ['ignore', 'pipe', 'ignore'],
      },
    );
    let next = from;
    let shown = '';
    let why = 'the process ended';
    let timer: NodeJS.Timeout | undefined;
    createInterface({ input: child.stdout }).on('line', (text) => {
      clearTimeout(timer);
      const said = JSON.parse(text) as Answer & { readonly begun?: number };
      if (said.begun !== undefined) {
        shown = said.shown;
        timer = setTimeout(() => {
          why = 'it hangs';
          child.kill('SIGKILL');
        }, 15 * MOST.ms);
        return;
      }
      take(said);
      next = said.index + 1;
      shown = '';
    });
    child.on('close', () => {
      clearTimeout(timer);
      if (shown !== '') {
        take({ index: next, ms: 0, rssMb: 0, wrong: [why], shown });
        next++;
      }
      done(next);
    });
  });

const kindOf = (wrong: string): string => wrong.replace(/[\d.e+-]+/g, '#').slice(0, 160);

const draw = async (count: number, seed: number): Promise<void> => {
  mkdirSync('build/fuzz', { recursive: true });
  const kinds = new Map<string, Answer[]>();
  let [slowest, largest, done] = [0, 0, 0];
  const take = (answer: Answer): void => {
    done++;
    slowest = Math.max(slowest, answer.ms);
    largest = Math.max(largest, answer.rssMb);
    const wrong = [
      ...answer.wrong,
      ...(answer.ms > MOST.ms ? ['slow'] : []),
      ...(answer.rssMb > MOST.rssMb ? ['large'] : []),
    ];
    for (const one of wrong) {
      const kind = kindOf(one);
      kinds.set(kind, [...(kinds.get(kind) ?? []), answer]);
      if (kinds.get(kind)!.length === 1)
        process.stdout.write(`${answer.index}: ${one.slice(0, 1500)}\n  ${answer.shown.slice(0, 700)}\n`);
    }
    if (done % SHARE === 0)
      process.stdout.write(`${done} of ${count}, slowest ${slowest} ms, largest ${largest} MB\n`);
  };
  for (let next = 0; next < count; ) next = await stretch(next, count, seed, take);
  writeFileSync(
    'build/fuzz/failed.json',
    JSON.stringify(
      [...kinds].map(([kind, answers]) => ({ kind, count: answers.length, cases: answers.slice(0, 20) })),
      null,
      1,
    ),
  );
  const failed = new Set([...kinds.values()].flat().map(({ index }) => index)).size;
  for (const [kind, answers] of [...kinds].sort((a, b) => b[1].length - a[1].length))
    process.stdout.write(`${answers.length} × ${kind}\n`);
  process.stdout.write(
    `${count} damaged logs, seed ${seed}: ${failed} failed; slowest ${slowest} ms, largest ${largest} MB\n`,
  );
  process.exitCode = failed > 0 ? 1 : 0;
};

/** Write the damaged log of one case to build/fuzz, and say what is wrong with its answer. */
const one = async (index: number, seed: number): Promise<void> => {
  mkdirSync('build/fuzz', { recursive: true });
  const tried = casesOf(seed, index)[index % SHARE]!;
  const path = `build/fuzz/damaged-${seed}-${index}.${tried.log.ending}`;
  writeFileSync(path, tried.bytes);
  process.stdout.write(`${path}\n${tried.shown}\n`);
  const folder = fuzzFolder();
  process.stdout.write(`${(await folder.run(tried)).join('\n')}\n`);
  folder.close();
};

const [first, ...rest] = process.argv.slice(2);
if (first === 'one') await one(Number(rest[0]), Number(rest[1]));
else if (first === 'work') await work(Number(rest[0]), Number(rest[1]), Number(rest[2]));
else await draw(Number(first ?? 2000), Number(rest[0] ?? 1));
