/** What is told when no server answers, and what can be done about it. */
import * as vscode from 'vscode';
import { log } from './log.ts';
import { type Command, type Found, typed } from './server_command.ts';

const SETTINGS = 'Open the settings';
const README = 'How to install it';
const LOG = 'Show the log';

export async function tellNotFound({ command, looked }: Found): Promise<void> {
  log.error(`No server was found. Looked for, in this order:\n${list(looked)}`);
  await offer(
    `Saywright is not running. The command tried was: ${typed(command)}. There is no such program.`,
  );
}

export async function tellNotStarted(command: Command, reason: unknown): Promise<void> {
  const why = reason instanceof Error ? reason.message : String(reason);
  log.error(`The command did not start a server: ${typed(command)}\n${why}`);
  await offer(`Saywright is not running. The command tried was: ${typed(command)}. It did not answer.`);
}

export async function tellGivenUp(command: Command): Promise<void> {
  log.error(`The server ended again and again, and is not started any more: ${typed(command)}`);
  await offer(`Saywright has stopped, several times. The command that runs it: ${typed(command)}`);
}

async function offer(message: string): Promise<void> {
  const chosen = await vscode.window.showErrorMessage(message, SETTINGS, README, LOG);
  if (chosen === SETTINGS) {
    await vscode.commands.executeCommand('workbench.action.openSettings', 'saywright.server');
  } else if (chosen === README) {
    await vscode.commands.executeCommand('extension.open', 'saywright.saywright');
  } else if (chosen === LOG) {
    log.show();
  }
}

function list(lines: readonly string[]): string {
  return lines.map((line) => `  ${line}`).join('\n');
}
