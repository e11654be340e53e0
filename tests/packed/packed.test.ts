import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { engineHere } from '../engines/engine-here.js';

/** What may be packed and installed, bytes. */
const PACKED_MOST = 1.5e6;
const INSTALLED_MOST = 8e6;

let folder = '';
let tarball = '';
const installed = () => join(folder, 'prefix', 'node_modules', 'thole');

const ran = (command: string, args: readonly string[], cwd: string) => {
  const env = {
    PATH: process.env.PATH,
    HOME: folder,
    npm_config_cache: process.env.npm_config_cache ?? join(folder, 'npm'),
  };
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, env, encoding: 'utf8' });
  expect([status, status === 0 ? '' : stderr]).toEqual([0, '']);
  return stdout;
};

const bytesBelow = (place: string): number =>
  readdirSync(place, { recursive: true, withFileTypes: true }).reduce(
    (sum, entry) => sum + (entry.isFile() ? statSync(join(entry.parentPath, entry.name)).size : 0),
    0,
  );

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'thole-'));
  ran('npm', ['pack', '--ignore-scripts', '--pack-destination', folder], resolve('.'));
  tarball = join(folder, readdirSync(folder).find((name) => name.endsWith('.tgz'))!);
  mkdirSync(join(folder, 'prefix'));
  ran('npm', ['install', tarball, '--ignore-scripts', '--offline', '--no-audit'], join(folder, 'prefix'));
}, 240_000);
afterAll(() => rmSync(folder, { recursive: true }));

/** Packages that the program or the library is made with. */
const BUNDLED = [
  'commander',
  'csv-parse',
  'fast-xml-parser',
  'geographiclib-geodesic',
  'simple-statistics',
  'zod',
];

/** These and all that they need, by the lock file. */
const needed = (names: readonly string[]): readonly string[] => {
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
  const all = [...names];
  for (const name of all)
    for (const next of Object.keys(packages[`node_modules/${name}`].dependencies ?? {}))
      if (!all.includes(next)) all.push(next);
  return all;
};

/** The examples of the library's manual page. */
const examples = readFileSync('man/thole-library.7', 'utf8')
  .split('\n.EX\n')
  .slice(1)
  .map((part) => part.slice(0, part.indexOf('\n.EE')).replaceAll('\\-', '-').replaceAll('\\e', '\\'));

describe.each(['node22', 'node24'])('the packed tarball under %s', (name) => {
  const engine = engineHere(`${name}/bin/node`);

  it.runIf(engine !== null)('answers as under this version, and keeps its compiled code apart', () => {
    const log = join(installed(), 'samples', 'outing', 'outing.gpx');
    const line = [join(installed(), 'bin', 'thole.js'), 'pieces', log, '--format', 'json', '--quiet'];
    const own = ran(process.execPath, line, folder);
    // twice: once without, once with what the first run kept
    expect(ran(engine!, line, folder)).toBe(own);
    expect(ran(engine!, line, folder)).toBe(own);
  });
});

describe('the packed tarball', () => {
  it('is small, and installs nothing beside it', () => {
    expect(statSync(tarball).size).toBeLessThan(PACKED_MOST);
    expect(bytesBelow(join(folder, 'prefix', 'node_modules'))).toBeLessThan(INSTALLED_MOST);
    expect(
      readdirSync(join(folder, 'prefix', 'node_modules')).filter((name) => !name.startsWith('.')),
    ).toEqual(['thole']);
  });

  it('holds no compiled code, and the licences of all code of others', () => {
    const files = readdirSync(installed(), { recursive: true }).map(String);
    expect(files.filter((name) => name.endsWith('.compiled'))).toEqual([]);
    const licences = readFileSync(join(installed(), 'dist', 'LICENSES.txt'), 'utf8');
    const { devDependencies } = JSON.parse(readFileSync('package.json', 'utf8'));
    const code = ['index.js', 'main.cjs']
      .map((name) => readFileSync(join(installed(), 'dist', name), 'utf8'))
      .join('');
    expect(code).toContain('geographiclib');
    for (const name of BUNDLED) expect(devDependencies).toHaveProperty(name);
    for (const name of needed(BUNDLED))
      expect(licences).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\([A-Z]`, 'm'));
  });

  it('runs from a folder of its own: a command, the completion, the manual page', () => {
    const thole = join(folder, 'prefix', 'node_modules', '.bin', 'thole');
    const elsewhere = join(folder, 'elsewhere');
    mkdirSync(elsewhere);
    const log = join(installed(), 'samples', 'watch', 'watch.gpx');
    expect(ran(thole, ['outing', log, '--format', 'csv', '--quiet'], elsewhere)).toBe(
      ran(
        process.execPath,
        [resolve('bin/thole.js'), 'outing', log, '--format', 'csv', '--quiet'],
        elsewhere,
      ),
    );
    expect(ran(thole, ['completion', 'bash'], elsewhere)).toContain('complete -F _thole thole');
    const { man } = JSON.parse(readFileSync(join(installed(), 'package.json'), 'utf8'));
    expect(man.length).toBeGreaterThan(0);
    for (const page of man) expect(existsSync(join(installed(), page))).toBe(true);
  });

  it('holds the samples that the examples of the manual need', () => {
    for (const [, path] of examples.join('\n').matchAll(/'(samples\/[^']+)'/g))
      expect(existsSync(join(installed(), path!))).toBe(true);
  });
});

describe('the examples of help', () => {
  it('read samples that are packed, in the folder that help names elsewhere', async () => {
    const made = await Promise.all(Object.values(COMMANDS).map((load) => load()));
    const lines = made.flatMap((each) => each.examples.map(({ line }) => line));
    const paths = lines.flatMap((line) => [...line.matchAll(/ (samples[^ "*]*)/g)].map(([, path]) => path!));
    expect(paths.length).toBeGreaterThan(10);
    for (const path of paths) expect(existsSync(join(installed(), path)), path).toBe(true);
    const thole = join(folder, 'prefix', 'node_modules', '.bin', 'thole');
    expect(ran(thole, ['curve', '--help'], folder)).toContain(`The samples are in ${installed()}`);
    const { line } = (await COMMANDS.workout!()).examples.at(0)!;
    expect(ran('sh', ['-c', line.replace('thole', thole)], installed())).toContain('6 x 2 min at 28');
  });
});

describe('the library in the packed tarball', () => {
  it.each(examples.map((code, i) => [i + 1, code] as const))(
    'runs example %i of its page in plain JavaScript',
    (i, code) => {
      const file = join(installed(), `example-${i}.mjs`);
      writeFileSync(file, code);
      expect(ran(process.execPath, [file], installed())).toMatch(/\w/);
    },
  );

  it('gives the figures of the command line', () => {
    const log = join(installed(), 'samples', 'watch', 'watch.gpx');
    const csv = ran(
      process.execPath,
      [resolve('bin/thole.js'), 'outing', log, '--format', 'json', '--quiet'],
      folder,
    );
    const [row] = JSON.parse(csv).outings;
    const printed = ran(process.execPath, [join(installed(), 'example-1.mjs')], installed());
    expect(printed).toContain(`${row.distance_m} m, ${row.stroke_count} strokes`);
  });

  it('has types that a strict project can use, and that find a mistake', () => {
    const project = join(folder, 'prefix');
    const options = {
      compilerOptions: {
        strict: true,
        module: 'nodenext',
        target: 'es2022',
        lib: ['es2023', 'dom'],
        noEmit: true,
        skipLibCheck: false,
        types: [],
      },
      files: ['use.mts'],
    };
    writeFileSync(join(project, 'tsconfig.json'), JSON.stringify(options));
    const use = (type: string) => `
      import { isFault, openOuting, outingResultOf, readLog } from 'thole';
      export const metres = (bytes: Uint8Array): ${type} => {
        const log = readLog(bytes, 'x.gpx');
        if (isFault(log)) throw new Error(log.message);
        return outingResultOf(openOuting([log], { craft: '1x' })).outings[0]!.distance_m;
      };`;
    const checked = (type: string) => {
      writeFileSync(join(project, 'use.mts'), use(type));
      return spawnSync(resolve('node_modules/.bin/tsc'), ['-p', '.'], { cwd: project, encoding: 'utf8' })
        .stdout;
    };
    expect(checked('number | null')).toBe('');
    expect(checked('string')).toContain("Type 'number | null' is not assignable to type 'string'");
  });
});

describe('the build', () => {
  it('gives the same bytes each time', () => {
    const made = join(folder, 'made');
    const { status } = spawnSync(process.execPath, ['tests/tooling/build.js', made]);
    expect(status).toBe(0);
    for (const name of readdirSync(made))
      expect(readFileSync(join(made, name)).equals(readFileSync(join('dist', name)))).toBe(true);
  }, 120_000);
});
