/** The settings that the server asks for. */
import * as vscode from 'vscode';

const KEYS = ['runningTime', 'timeShown', 'greyBeyondSlot'];

/** Only what the writer has set: anything else is left to the folder's saywright.toml. */
export function settingsForServer(scope: vscode.Uri | undefined): Record<string, unknown> {
  const settings = vscode.workspace.getConfiguration('saywright', scope);
  const set = KEYS.filter((key) => isSet(settings.inspect(key)));
  return Object.fromEntries(set.map((key) => [key, settings.get(key)]));
}

type Inspected = ReturnType<vscode.WorkspaceConfiguration['inspect']>;

function isSet(setting: Inspected): boolean {
  const { globalValue, workspaceValue, workspaceFolderValue } = setting ?? {};
  const { globalLanguageValue, workspaceLanguageValue, workspaceFolderLanguageValue } = setting ?? {};
  return [
    ...[globalValue, workspaceValue, workspaceFolderValue],
    ...[globalLanguageValue, workspaceLanguageValue, workspaceFolderLanguageValue],
  ].some((value) => value !== undefined);
}
