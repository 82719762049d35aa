/** Where the server is looked for, in which order, and what is told of it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { findServer, type Surroundings, typed, type Wishes } from '../src/server_command.ts';

const HOME = '/home/ines';
const SCRIPTS = '/home/ines/scripts';

interface Case {
  readonly wishes?: Partial<Wishes>;
  readonly around?: Partial<Surroundings>;
}

function find(programs: readonly string[], { wishes, around }: Case = {}) {
  return findServer(
    { path: '', runWith: 'installed', ...wishes },
    {
      folders: [SCRIPTS],
      pythons: [],
      searchPath: ['/usr/local/bin', '/usr/bin'],
      home: HOME,
      windows: false,
      isProgram: (file) => programs.includes(file),
      ...around,
    },
  );
}

function command(programs: readonly string[], told: Case = {}): string | undefined {
  const { isThere, command } = find(programs, told);
  return isThere ? typed(command) : undefined;
}

const EVERYWHERE = [
  `${SCRIPTS}/.venv/bin/saywright`,
  `${SCRIPTS}/venv/bin/saywright`,
  '/opt/salt/bin/saywright',
  '/usr/bin/saywright',
  `${HOME}/.local/bin/saywright`,
  '/usr/bin/uvx',
];

test('what is nearer is taken first', () => {
  const around = { pythons: ['/opt/salt/bin/python'] };
  const wishes = { runWith: 'uvx' } as const;
  const taken = EVERYWHERE.map((_, index) => command(EVERYWHERE.slice(index), { wishes, around }));
  assert.deepEqual(taken, [
    ...EVERYWHERE.slice(0, -1).map((program) => `${program} serve`),
    '/usr/bin/uvx saywright serve',
  ]);
});

test('what fetches from the network is run only where that is asked for', () => {
  assert.equal(command(['/usr/bin/uvx', '/usr/bin/pipx']), undefined);
  const pipx = { wishes: { runWith: 'pipx' } } as const;
  assert.equal(command(['/usr/bin/uvx', '/usr/bin/pipx'], pipx), '/usr/bin/pipx run saywright serve');
  assert.equal(command([`${HOME}/.local/bin/pipx`], pipx), `${HOME}/.local/bin/pipx run saywright serve`);
  assert.equal(command(['/usr/bin/uvx'], pipx), undefined);
});

test('a path that was chosen is the only one that is tried', () => {
  const wishes = { path: '/opt/lost/saywright' };
  assert.equal(command(EVERYWHERE, { wishes }), undefined);
  const { command: tried, looked } = find(EVERYWHERE, { wishes });
  assert.deepEqual(looked, [wishes.path]);
  assert.equal(typed(tried), '/opt/lost/saywright serve');
});

for (const [path, expected] of [
  ['/opt/salt/bin/saywright', '/opt/salt/bin/saywright serve'],
  ['  /opt/salt/bin/saywright ', '/opt/salt/bin/saywright serve'],
  ['/opt/salt/bin/python', '/opt/salt/bin/python -P -m saywright serve'],
  ['/opt/salt/bin/python3.11', '/opt/salt/bin/python3.11 -P -m saywright serve'],
  ['~/salt pans/saywright', `"${HOME}/salt pans/saywright" serve`],
  ['${userHome}/salt pans/saywright', `"${HOME}/salt pans/saywright" serve`],
  ['${workspaceFolder}/tools/saywright', `${SCRIPTS}/tools/saywright serve`],
  ['tools/saywright', `${SCRIPTS}/tools/saywright serve`],
  ['./tools/saywright', `${SCRIPTS}/tools/saywright serve`],
  ['saywright', '/usr/bin/saywright serve'],
  ['pythonic', '/usr/bin/pythonic serve'],
] as const) {
  test(`the path “${path}”`, () => {
    const programs = [
      ...['saywright', 'python', 'python3.11'].map((name) => `/opt/salt/bin/${name}`),
      ...[`${HOME}/salt pans/saywright`, `${SCRIPTS}/tools/saywright`],
      ...['/usr/bin/saywright', '/usr/bin/pythonic'],
    ];
    assert.equal(command(programs, { wishes: { path } }), expected);
  });
}

test('a name that has a dollar in it stays as it is', () => {
  const around = { home: '/home/$&' };
  assert.equal(command(['/home/$&/saywright'], { wishes: { path: '~/saywright' }, around }), '/home/$&/saywright serve');
});

test('where the folder is not trusted, nothing in it is run', () => {
  const around = { folders: [] };
  assert.equal(command([`${SCRIPTS}/.venv/bin/saywright`], { around }), undefined);
  assert.equal(command(EVERYWHERE, { around }), '/usr/bin/saywright serve');
});

test('a folder on the PATH that is not a full path leads into no folder of scripts', () => {
  assert.equal(command(['bin/saywright', './saywright', 'saywright'], { around: { searchPath: ['bin', '.', ''] } }), undefined);
});

test('every place is told, in order', () => {
  assert.equal(typed(find([]).command), 'saywright serve');
  const wishes = { runWith: 'uvx' } as const;
  assert.equal(typed(find([], { wishes }).command), 'uvx saywright serve');
  assert.deepEqual(find([], { wishes, around: { pythons: ['/opt/salt/bin/python'] } }).looked, [
    `${SCRIPTS}/.venv/bin/saywright`,
    `${SCRIPTS}/venv/bin/saywright`,
    '/opt/salt/bin/saywright',
    'saywright, on the PATH',
    `${HOME}/.local/bin/saywright`,
    'uvx, on the PATH',
    `${HOME}/.local/bin/uvx`,
  ]);
});

test('on Windows', () => {
  const folder = 'C:\\scripts';
  const around = {
    folders: [folder],
    searchPath: ['C:\\tools'],
    home: 'C:\\Users\\ines',
    windows: true,
  };
  const environment = `${folder}\\.venv\\Scripts\\saywright.exe`;
  assert.equal(command([environment], { around }), `${environment} serve`);
  assert.equal(command(['C:\\tools\\saywright.exe'], { around }), 'C:\\tools\\saywright.exe serve');
  const wishes = { path: 'C:\\Python\\python.exe' };
  assert.equal(command([wishes.path], { around, wishes }), 'C:\\Python\\python.exe -P -m saywright serve');
  const own = 'C:\\Users\\ines\\.local\\bin\\uvx.exe';
  assert.equal(command([own], { around, wishes: { runWith: 'uvx' } }), `${own} saywright serve`);
});
