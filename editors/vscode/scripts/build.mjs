// Makes the bundle, and brings in what the repository keeps once: the grammar and the licence.
import { cpSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = join(dirname(fileURLToPath(import.meta.url)), '..');
const root = join(here, '..', '..');
const dist = join(here, 'dist');

rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });
for (const file of ['say.tmLanguage.json', 'language-configuration.json']) {
  cpSync(join(root, 'grammar', file), join(dist, file));
}
cpSync(join(root, 'LICENSE'), join(here, 'LICENSE.txt'));

const { metafile } = await build({
  absWorkingDir: here,
  entryPoints: ['src/extension.ts'],
  outfile: 'dist/extension.js',
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  external: ['vscode'],
  minify: true,
  metafile: true,
  legalComments: 'none', // they are in the file below, whole
  logLevel: 'warning',
});
writeFileSync(join(dist, 'licences-of-libraries.txt'), licences(Object.keys(metafile.inputs)));

/** The licences of the packages that the bundle holds, as those ask for. */
function licences(files) {
  const packages = files.map((file) => /^node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0]);
  return [...new Set(packages.filter(Boolean))].sort().map(licence).join(`\n\n${'-'.repeat(72)}\n\n`);
}

function licence(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(here, folder, 'package.json')));
  const file = readdirSync(join(here, folder)).find((each) => /^licen[cs]e/i.test(each));
  if (file === undefined) {
    throw new Error(`${name} ${version} has no licence file`);
  }
  const text = readFileSync(join(here, folder, file), 'utf8').replaceAll('\r\n', '\n').trim();
  return `${name} ${version} (${license})\n\n${text}`;
}
