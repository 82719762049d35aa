/** Which command starts the server. Knows nothing of VS Code, so that it is tested without it. */
import * as path from 'node:path';

export type RunWith = 'installed' | 'uvx' | 'pipx';

/** What the writer's settings say. An empty path means that none was chosen. */
export interface Wishes {
  readonly path: string;
  readonly runWith: RunWith;
}

/**
 * Where a server may be. `folders` are the workspace's, first ones first, and none of them where
 * the workspace is not trusted; `pythons` are interpreters of environments that were chosen.
 */
export interface Surroundings {
  readonly folders: readonly string[];
  readonly pythons: readonly string[];
  readonly searchPath: readonly string[];
  readonly home: string;
  readonly windows: boolean;
  readonly isProgram: (file: string) => boolean;
}

export interface Command {
  readonly program: string;
  readonly arguments: readonly string[];
}

/** Whether the program is there, its command (if it is not, the one that was tried last), and each
 * place that was looked at, in order. */
export interface Found {
  readonly isThere: boolean;
  readonly command: Command;
  readonly looked: readonly string[];
}

const SERVE = 'serve';
const ENVIRONMENTS = ['.venv', 'venv'];
const PYTHON = /^(python|pypy)[\d.]*w?(\.exe)?$/i;
const RUNNERS = {
  uvx: { name: 'uvx', arguments: ['saywright', SERVE] },
  pipx: { name: 'pipx', arguments: ['run', 'saywright', SERVE] },
};

/** The command as it would be typed. */
export function typed(command: Command): string {
  return [command.program, ...command.arguments]
    .map((word) => (/\s/.test(word) ? `"${word}"` : word))
    .join(' ');
}

export function findServer(wishes: Wishes, around: Surroundings): Found {
  const looked: string[] = [];
  const written = wishes.path.trim();
  const found = written
    ? chosen(resolved(written, around), around, looked)
    : installed(around, looked) ?? run(wishes.runWith, around, looked);
  const tried = written ? started(resolved(written, around)) : last(wishes.runWith);
  return { isThere: found !== undefined, command: found ?? tried, looked };
}

function last(how: RunWith): Command {
  return how === 'installed'
    ? started('saywright')
    : { program: RUNNERS[how].name, arguments: RUNNERS[how].arguments };
}

/** A path that was chosen is taken at its word: nothing else is tried. */
function chosen(program: string, around: Surroundings, looked: string[]): Command | undefined {
  if (!hasFolder(program)) {
    return ifThere(onPath(program, around, looked));
  }
  const full = executable(program, around);
  looked.push(full);
  return ifThere([program, full].find(around.isProgram));
}

function installed(around: Surroundings, looked: string[]): Command | undefined {
  for (const file of candidates(around)) {
    looked.push(file);
    if (around.isProgram(file)) {
      return started(file);
    }
  }
  return ifThere(onComputer('saywright', around, looked));
}

/** On the PATH, or where pipx and uv put programs: an editor that is started from a menu often
 * lacks that folder on its PATH. */
function onComputer(name: string, around: Surroundings, looked: string[]): string | undefined {
  const found = onPath(name, around, looked);
  if (found !== undefined) {
    return found;
  }
  const own = join(around, around.home, '.local', 'bin', executable(name, around));
  looked.push(own);
  return around.isProgram(own) ? own : undefined;
}

function candidates(around: Surroundings): string[] {
  const name = executable('saywright', around);
  const scripts = around.windows ? 'Scripts' : 'bin';
  return [
    ...around.folders.flatMap((folder) =>
      ENVIRONMENTS.map((each) => join(around, folder, each, scripts, name)),
    ),
    ...around.pythons.map((python) => join(around, flavour(around).dirname(python), name)),
  ];
}

function run(how: RunWith, around: Surroundings, looked: string[]): Command | undefined {
  if (how === 'installed') {
    return undefined;
  }
  const program = onComputer(RUNNERS[how].name, around, looked);
  return program === undefined ? undefined : { program, arguments: RUNNERS[how].arguments };
}

function ifThere(program: string | undefined): Command | undefined {
  return program === undefined ? undefined : started(program);
}

/** The program asked to serve; of a Python, the server that is installed with it, and (`-P`) no
 * module that lies where it is started. */
function started(program: string): Command {
  const name = program.split(/[\\/]/).at(-1) ?? program;
  return { program, arguments: PYTHON.test(name) ? ['-P', '-m', 'saywright', SERVE] : [SERVE] };
}

function resolved(written: string, around: Surroundings): string {
  const first = around.folders[0] ?? '';
  const whole = written
    .replace(/^~(?=[\\/]|$)/, () => around.home)
    .replaceAll('${workspaceFolder}', () => first)
    .replaceAll('${userHome}', () => around.home);
  const { isAbsolute } = flavour(around);
  return hasFolder(whole) && !isAbsolute(whole) && first ? join(around, first, whole) : whole;
}

function hasFolder(file: string): boolean {
  return /[\\/]/.test(file);
}

function onPath(name: string, around: Surroundings, looked: string[]): string | undefined {
  const full = executable(name, around);
  looked.push(`${full}, on the PATH`);
  return around.searchPath
    .filter((folder) => flavour(around).isAbsolute(folder))
    .map((folder) => join(around, folder, full))
    .find(around.isProgram);
}

function executable(name: string, around: Surroundings): string {
  return around.windows && !/\.exe$/i.test(name) ? `${name}.exe` : name;
}

function join(around: Surroundings, ...names: string[]): string {
  return flavour(around).join(...names);
}

function flavour(around: Surroundings): path.PlatformPath {
  return around.windows ? path.win32 : path.posix;
}
