import { readdirSync, readFileSync } from 'node:fs';

/** The packages whose code a bundle holds, by the inputs that the bundler lists. */
export const bundledPackages = (inputs) =>
  [
    ...new Set(
      inputs.flatMap((path) => {
        const found = /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path);
        return found === null ? [] : [found[1]];
      }),
    ),
  ].sort();

/** The licence of an installed package: its text where it carries one, else what its manifest states. */
const licenceOf = (name) => {
  const folder = `node_modules/${name}`;
  const manifest = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)(\.|$)/i.test(entry));
  const author =
    typeof manifest.author === 'string' ? manifest.author : (manifest.author?.name ?? 'its authors');
  const text =
    file === undefined
      ? `${manifest.license} licence, as its package states; by ${author}.`
      : readFileSync(`${folder}/${file}`, 'utf8').trim();
  return `${name} ${manifest.version} (${manifest.license})\n\n${text.replaceAll('\r\n', '\n')}\n`;
};

/** The licences of all code of others that the program and the library hold. */
export const licences = (packages) =>
  [
    'The program and the library of Thole hold code of these packages, each under its own licence.\n',
    ...packages.map(licenceOf),
  ].join(`\n${'-'.repeat(72)}\n\n`);
