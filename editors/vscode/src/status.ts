/** In the status bar: how long the piece at the cursor runs. */
import * as vscode from 'vscode';
import { type DocumentSymbol, DocumentSymbolRequest } from 'vscode-languageclient/node';
import { pieceAt } from './pieces.ts';
import type { Session } from './session.ts';

const WAIT_MS = 150;
const WAIT_TIMES_ANSWER = 4; // of a long script the server is asked less often
const WAIT_FOR_SERVER_MS = 500; // until it has read a project file that has changed

export class Status implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    'saywright.time',
    vscode.StatusBarAlignment.Right,
    110,
  );
  private readonly disposables: vscode.Disposable[] = [this.item];
  private wait = WAIT_MS;
  private timer: NodeJS.Timeout | undefined;
  private known: { uri: string; version: number; symbols: DocumentSymbol[] } | undefined;

  constructor(private readonly session: Session) {
    this.item.name = 'Saywright: running time';
    const project = vscode.workspace.createFileSystemWatcher('**/saywright.toml');
    const again = (): void => this.forget(WAIT_FOR_SERVER_MS);
    this.disposables.push(
      project,
      project.onDidChange(again),
      project.onDidCreate(again),
      project.onDidDelete(again),
      session.onDidChange(() => this.forget(0)),
      vscode.window.onDidChangeActiveTextEditor(() => this.later(0)),
      vscode.window.onDidChangeTextEditorSelection(() => this.later(this.wait)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document === vscode.window.activeTextEditor?.document) {
          this.later(this.wait);
        }
      }),
    );
  }

  dispose(): void {
    clearTimeout(this.timer);
    vscode.Disposable.from(...this.disposables).dispose();
  }

  private forget(milliseconds: number): void {
    this.known = undefined;
    this.later(milliseconds);
  }

  /** Asking at each key would cost the server for nothing: it is asked when the keys rest. */
  private later(milliseconds: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.show(), milliseconds);
  }

  private async show(): Promise<void> {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== 'say' || this.session.isStarting) {
      this.item.hide();
    } else if (this.session.running === undefined) {
      this.tell('$(warning) Saywright is not running', 'Start it again', 'saywright.restart');
    } else {
      const symbols = await this.symbols(editor.document);
      if (editor === vscode.window.activeTextEditor) {
        this.tellTime(pieceAt(symbols, editor.selection.active.line));
      }
    }
  }

  private tellTime(piece: DocumentSymbol | undefined): void {
    if (piece === undefined) {
      this.item.hide();
    } else {
      this.tell(`$(clock) ${piece.detail}`, 'How long the piece at the cursor runs');
    }
  }

  private tell(text: string, tooltip: string, command?: string): void {
    this.item.text = text;
    this.item.tooltip = tooltip;
    this.item.command = command;
    this.item.show();
  }

  private async symbols(document: vscode.TextDocument): Promise<DocumentSymbol[]> {
    const uri = document.uri.toString();
    const { version } = document;
    if (this.known?.uri === uri && this.known.version === version) {
      return this.known.symbols;
    }
    const params = { textDocument: { uri } };
    const asked = Date.now();
    const answer = await this.session.running
      ?.sendRequest(DocumentSymbolRequest.type, params)
      .catch(() => null);
    this.wait = Math.max(WAIT_MS, WAIT_TIMES_ANSWER * (Date.now() - asked));
    if (!answer) {
      return [];
    }
    const symbols = answer as DocumentSymbol[];
    this.known = { uri, version, symbols };
    return symbols;
  }
}
