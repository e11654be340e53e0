import { createHash } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';

// Builds dist: the library (index.js), the program (main.cjs) and what starts it. The same sources give the same bytes.

rmSync('dist', { recursive: true, force: true });

const shared = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  outdir: 'dist',
  minifySyntax: true,
  minifyWhitespace: true,
  logLevel: 'warning',
};

/** What is imported late is part of the script, and begun late. */
const script = {
  ...shared,
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  supported: { 'dynamic-import': false },
};

await build({
  ...shared,
  entryPoints: ['src/index.ts'],
  format: 'esm',
  banner: { js: 'const require = (name) => process.getBuiltinModule(name);' },
});
await build({
  ...script,
  entryPoints: ['src/cli/main.ts'],
  define: { 'import.meta.url': 'ownUrl' },
  banner: { js: 'const ownUrl = require("node:url").pathToFileURL(__filename).href;' },
});
// It is read as bytes, letter by letter: what is left of other letters stands in regular expressions.
const ascii = readFileSync('dist/main.cjs', 'utf8').replace(
  /[^\0-\x7f]/g,
  (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
);
writeFileSync('dist/main.cjs', ascii);
await build({
  ...script,
  entryPoints: ['src/cli/start.ts', 'src/cli/worker.ts'],
  define: { PROGRAM_HASH: JSON.stringify(createHash('sha256').update(ascii).digest('hex').slice(0, 16)) },
});
