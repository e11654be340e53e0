import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const require = createRequire(resolve('tests/engines/package.json'));

/** Where a package of tests/engines is installed; null, and said, where it is not: `npm install --prefix tests/engines`. */
export const engineHere = (name: string): string | null => {
  try {
    return require.resolve(name);
  } catch {
    console.info(`left out: ${name} is not installed; npm install --prefix tests/engines`);
    return null;
  }
};
