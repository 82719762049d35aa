/** What of this computer and this window decides which server is started. */
import { accessSync, constants, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter } from 'node:path';
import * as vscode from 'vscode';
import type { RunWith, Surroundings, Wishes } from './server_command.ts';

const WINDOWS = process.platform === 'win32';
const PYTHON_EXTENSION = 'ms-python.python';
const PYTHON_WAIT_MS = 3000;

export function wishes(): Wishes {
  const settings = vscode.workspace.getConfiguration('saywright.server', firstFolder());
  return {
    path: settings.get<string>('path', ''),
    runWith: settings.get<RunWith>('runWith', 'installed'),
  };
}

/** Programs inside a workspace are run only where its writer trusts it. */
export async function surroundings(): Promise<Surroundings> {
  const trusted = vscode.workspace.isTrusted;
  return {
    folders: trusted ? folders().map((uri) => uri.fsPath) : [],
    pythons: trusted ? await chosenPythons() : [],
    searchPath: (process.env['PATH'] ?? '').split(delimiter).filter(Boolean),
    home: homedir(),
    windows: WINDOWS,
    isProgram,
  };
}

function folders(): vscode.Uri[] {
  const all = vscode.workspace.workspaceFolders ?? [];
  return all.map((folder) => folder.uri).filter((uri) => uri.scheme === 'file');
}

function firstFolder(): vscode.Uri | undefined {
  return folders()[0];
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

interface PythonApi {
  environments?: { getActiveEnvironmentPath?(resource?: vscode.Uri): { path?: string } | undefined };
}

/** The interpreter that the Python extension has for this workspace, where that is installed. */
async function chosenPythons(): Promise<string[]> {
  const extension = vscode.extensions.getExtension<PythonApi>(PYTHON_EXTENSION);
  if (extension === undefined) {
    return [];
  }
  try {
    const api = await Promise.race([extension.activate(), soon()]);
    const python = api?.environments?.getActiveEnvironmentPath?.(firstFolder())?.path;
    return python ? [python] : [];
  } catch {
    return []; // its own trouble, of which it tells itself
  }
}

/** The scripts do not wait for another extension that takes its time. */
function soon(): Promise<undefined> {
  return new Promise((resolve) => setTimeout(() => resolve(undefined), PYTHON_WAIT_MS));
}
