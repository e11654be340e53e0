import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';

// Keeps of dist/types what the library's own types reach, and lays beside it the types of the one package that they
// name: nothing has to be installed for them.

const ROOT = 'dist/types';
const NAMED = 'zod';

/** What a declaration file imports from. */
const importsOf = (text) =>
  [...text.matchAll(/(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g)].map(([, name]) => name);

const declarationOf = (path) => path.replace(/\.js$/, '.d.ts').replace(/\.cjs$/, '.d.cts');

/** Every declaration file that one reaches by relative imports, itself first. */
const reachedFrom = (start) => {
  const reached = [start];
  for (const file of reached)
    for (const name of importsOf(readFileSync(file, 'utf8'))) {
      if (!name.startsWith('.')) continue;
      const next = declarationOf(join(dirname(file), name));
      if (!reached.includes(next)) reached.push(next);
    }
  return reached;
};

const kept = new Set(reachedFrom(`${ROOT}/index.d.ts`));
for (const entry of readdirSync(ROOT, { recursive: true, withFileTypes: true })) {
  const file = join(entry.parentPath, entry.name);
  if (entry.isFile() && !kept.has(file)) rmSync(file);
}
for (const file of kept) {
  const text = readFileSync(file, 'utf8');
  const path = relative(dirname(file), `${ROOT}/${NAMED}/index.js`);
  const moved = text
    .replaceAll(`from '${NAMED}'`, `from './${path}'`)
    .replaceAll('from "zod"', `from "./${path}"`);
  if (moved !== text) writeFileSync(file, moved);
}
for (const file of reachedFrom(`node_modules/${NAMED}/index.d.ts`)) {
  const to = join(ROOT, relative('node_modules', file));
  mkdirSync(dirname(to), { recursive: true });
  cpSync(file, to);
}
