// Runs tests/*.test.ts, bundled, in Node's own test runner: what knows nothing of VS Code.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = join(dirname(fileURLToPath(import.meta.url)), '..');
const made = mkdtempSync(join(tmpdir(), 'saywright-'));
try {
  const names = readdirSync(join(here, 'tests')).filter((name) => name.endsWith('.test.ts'));
  await build({
    absWorkingDir: here,
    entryPoints: names.map((name) => join('tests', name)),
    outdir: made,
    outExtension: { '.js': '.cjs' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    logLevel: 'warning',
  });
  const files = readdirSync(made).map((name) => join(made, name));
  process.exitCode = spawnSync(process.execPath, ['--test', ...files], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(made, { recursive: true, force: true });
}
