import { createHash } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { bundledPackages, licences } from './licences.js';

// Builds dist: the library (index.js), the program (main.cjs), what starts it, and the licences of what they hold.
// The same sources give the same bytes.

/** Where it is built: `dist`, or the folder that is named behind the script. */
const OUT = process.argv[2] ?? 'dist';

rmSync(OUT, { recursive: true, force: true });

const shared = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  // What would colour the borders that our tables do not have.
  external: ['@colors/colors'],
  outdir: OUT,
  minifySyntax: true,
  minifyWhitespace: true,
  minifyIdentifiers: true,
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
};

/** What is imported late is part of the script, and begun late. */
const script = {
  ...shared,
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  supported: { 'dynamic-import': false },
};

const library = await build({
  ...shared,
  entryPoints: ['src/index.ts'],
  format: 'esm',
  platform: 'browser',
  target: 'es2023',
  alias: { 'csv-parse/sync': 'csv-parse/browser/esm/sync' },
});
const program = await build({
  ...script,
  entryPoints: ['src/cli/main.ts'],
  define: { 'import.meta.url': 'ownUrl' },
  banner: { js: 'const ownUrl = require("node:url").pathToFileURL(__filename).href;' },
});
// It is read as bytes, letter by letter: what is left of other letters stands in regular expressions.
const ascii = readFileSync(`${OUT}/main.cjs`, 'utf8').replace(
  /[^\0-\x7f]/g,
  (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
);
writeFileSync(`${OUT}/main.cjs`, ascii);
await build({
  ...script,
  entryPoints: ['src/cli/start.ts', 'src/cli/worker.ts'],
  define: { PROGRAM_HASH: JSON.stringify(createHash('sha256').update(ascii).digest('hex').slice(0, 16)) },
});

const inputs = [library, program].flatMap(({ metafile }) => Object.keys(metafile.inputs));
writeFileSync(`${OUT}/LICENSES.txt`, licences(bundledPackages(inputs)));
