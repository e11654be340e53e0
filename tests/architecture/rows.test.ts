import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

/** Rows of the layout, lowest first. Code imports from its own folder or from an earlier row. */
const ROWS = [
  ['units'],
  ['contract'],
  ['recording', 'geodesy', 'signal'],
  ['formats'],
  ['motion'],
  ['strokes'],
  ['outing'],
  ['pieces'],
  ['regatta', 'season', 'workout', 'simulate'],
  ['checks'],
  ['report'],
  ['host'],
  ['cli'],
];

/** Only these folders may touch files, processes and clocks. */
const DOORS = ['host', 'cli'];

const SOURCE = fileURLToPath(new URL('../../src', import.meta.url));
const IMPORT =
  /(?:^|[\s;])(?:import|export)\s(?:[^'"`;]*?\sfrom\s)?\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]/g;

interface Import {
  readonly file: string;
  readonly line: number;
  readonly target: string;
}

const filesBelow = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return filesBelow(path);
    return path.endsWith('.ts') ? [path] : [];
  });

const importsOf = (file: string): Import[] => {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(IMPORT)].map((match) => ({
    file,
    line: text.slice(0, match.index).split('\n').length,
    target: match[1] ?? match[2] ?? '',
  }));
};

const folderOf = (path: string): string | null => {
  const parts = relative(SOURCE, path).split('/');
  return parts.length > 1 ? parts[0]! : null;
};

const rowOf = (folder: string): number => ROWS.findIndex((row) => row.includes(folder));

/** What is wrong with one import, and what to do; null where nothing is. */
const breach = ({ file, line, target }: Import): string | null => {
  const from = folderOf(file);
  if (from === null) return null;
  const place = `src/${relative(SOURCE, file)}:${line}`;
  if (target.startsWith('node:')) {
    const pure = ['node:buffer', 'node:util'].includes(target);
    return DOORS.includes(from) || pure
      ? null
      : `${place} imports ${target}: only src/host and src/cli touch the machine. Take the bytes, time or text as an argument.`;
  }
  if (!target.startsWith('.')) return null;
  const to = folderOf(resolve(dirname(file), target));
  if (to === null)
    return `${place} imports ${target} from the top of src: import from the folder that holds the idea.`;
  if (to === from) return null;
  if (rowOf(to) < 0)
    return `${place} imports src/${to}, which is in no row: add the folder to ROWS or move the file.`;
  if (rowOf(to) === rowOf(from))
    return `${place} imports its neighbour src/${to}: move what both need to an earlier row, or pass it in as data.`;
  if (rowOf(to) > rowOf(from))
    return `${place} imports upward from src/${to}: move the idea down, or let src/${to} call src/${from} and pass the result.`;
  return null;
};

describe('the rows of the layout', () => {
  const files = filesBelow(SOURCE);
  const imports = files.flatMap(importsOf);

  it('sees the source', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(imports.length).toBeGreaterThan(files.length / 2);
  });

  it('knows every folder', () => {
    const unknown = [...new Set(files.map(folderOf))].filter(
      (folder) => folder !== null && rowOf(folder) < 0,
    );
    expect(
      unknown,
      'folders in no row: add them to ROWS in this test and to the map in DEVELOPERS.md',
    ).toEqual([]);
  });

  it('holds: no import goes up or sideways, and only the doors touch the machine', () => {
    expect(imports.map(breach).filter((message) => message !== null)).toEqual([]);
  });

  it('holds: zod is taken as a namespace, for a bundler can then leave out what is not used', () => {
    const whole = files.filter((file) =>
      /import \{[^}]*\bz\b[^}]*\} from 'zod'/.test(readFileSync(file, 'utf8')),
    );
    expect(
      whole.map((file) => `src/${relative(SOURCE, file)}`),
      "write import * as z from 'zod'",
    ).toEqual([]);
  });

  it('would catch a breach', () => {
    const at = (path: string, target: string) => breach({ file: join(SOURCE, path), line: 1, target });
    expect(at('units/split.ts', '../cli/main.js')).toMatch(/upward/);
    expect(at('geodesy/line.ts', '../signal/peaks.js')).toMatch(/neighbour/);
    expect(at('signal/peaks.ts', 'node:fs')).toMatch(/only src\/host and src\/cli/);
    expect(at('cli/main.ts', '../units/split.js')).toBeNull();
  });
});
