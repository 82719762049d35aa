import * as vscode from 'vscode';
import { log } from './log.ts';
import { planCut } from './planning.ts';
import { Session } from './session.ts';
import { Status } from './status.ts';

let session: Session | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const started = new Session();
  session = started;
  context.subscriptions.push(
    log,
    started,
    new Status(started),
    vscode.commands.registerCommand('saywright.planCutHere', planCut),
    vscode.commands.registerCommand('saywright.restart', () => started.restart()),
    vscode.commands.registerCommand('saywright.showLog', () => log.show()),
    vscode.workspace.onDidGrantWorkspaceTrust(() => started.restart()),
    vscode.workspace.onDidChangeConfiguration(async (event) => {
      if (event.affectsConfiguration('saywright.server')) {
        await started.restart();
      }
    }),
  );
  await started.restart();
}

export async function deactivate(): Promise<void> {
  await session?.stop();
}
