/** The language client, made quiet: what goes wrong is told once, by this extension, in words. */
import { homedir } from 'node:os';
import * as vscode from 'vscode';
import {
  CloseAction,
  ErrorAction,
  LanguageClient,
  type ConfigurationParams,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from 'vscode-languageclient/node';
import type { Hints } from './hints.ts';
import { log } from './log.ts';
import { choosePlan, PLAN, unasked } from './planning.ts';
import { type Command, typed } from './server_command.ts';
import { settingsForServer } from './settings.ts';

const MOST_RESTARTS = 3;
const RESTARTS_WITHIN_MS = 3 * 60_000;

export class QuietClient extends LanguageClient {
  /** Into the log, without the library's own notice beside the one of this extension. */
  override error(message: string, data?: unknown): void {
    super.error(message, data, false);
  }
}

/** What becomes of a server that has ended by itself. */
export interface Ending {
  /** Whether it ever answered; if not, whoever started it tells that it does not. */
  readonly hasStarted: () => boolean;
  /** It has ended too often, and is not started again. */
  readonly onGivingUp: () => void;
}

export function makeClient(command: Command, hints: Hints, ending: Ending): QuietClient {
  log.info(`Starting: ${typed(command)}`);
  // not in the folder of scripts: nothing that lies there is to be taken for a part of the server
  const options = { cwd: homedir() };
  const executable = { command: command.program, args: [...command.arguments], options };
  return new QuietClient('saywright', 'Saywright', executable, clientOptions(hints, ending));
}

function clientOptions(hints: Hints, ending: Ending): LanguageClientOptions {
  const ends: number[] = [];
  return {
    documentSelector: [
      { language: 'say', scheme: 'file' },
      { language: 'say', scheme: 'untitled' },
    ],
    outputChannel: log,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    initializationFailedHandler: () => false,
    diagnosticPullOptions: { onChange: true, onTabs: true },
    middleware: {
      workspace: { configuration: settingsAsked },
      // of anything but a name VS Code would mark the same word everywhere, as in a program
      provideDocumentHighlights: async (document, place, token, next) =>
        (await next(document, place, token)) ?? [],
      provideInlayHints: (document, range, token, next) =>
        hints.inTime(document, () => next(document, range, token), token),
      resolveCodeAction: async (action, token, next) => unasked(await next(action, token)),
      executeCommand: (name, told, next) =>
        name === PLAN ? choosePlan(told, () => next(name, told)) : next(name, told),
    },
    errorHandler: {
      error: () => ({ action: ErrorAction.Continue, handled: true }),
      closed: () => ({ action: afterEnd(ends, ending), handled: true }),
    },
  };
}

function afterEnd(ends: number[], ending: Ending): CloseAction {
  if (!ending.hasStarted()) {
    return CloseAction.DoNotRestart;
  }
  const now = Date.now();
  ends.push(now);
  if (ends.filter((end) => now - end < RESTARTS_WITHIN_MS).length <= MOST_RESTARTS) {
    return CloseAction.Restart;
  }
  ending.onGivingUp();
  return CloseAction.DoNotRestart;
}

function settingsAsked(params: ConfigurationParams): unknown[] {
  return params.items.map(({ section, scopeUri }) => {
    const scope = scopeUri === undefined ? undefined : vscode.Uri.parse(scopeUri);
    return section === 'saywright' ? settingsForServer(scope) : null;
  });
}
