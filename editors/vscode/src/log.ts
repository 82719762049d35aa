import * as vscode from 'vscode';

/** What the extension and the server have to say for themselves. */
export const log = vscode.window.createOutputChannel('Saywright', { log: true });
