/** Times that stay whole and still while the line that they stand on is written.
 *
 * For 0.8 s after a key VS Code holds what stands before the cursor to the width that it has on the
 * page: it would cut a new time short, with an ellipsis. So where the cursor has a time before it,
 * the times wait until the keys rest. VS Code asks once more then.
 */
import * as vscode from 'vscode';

const HOLDS_MS = 750; // VS Code's clock starts before ours
const SURELY_OVER_MS = 1000;

interface Change {
  readonly when: number;
  /** Where the cursor is likely to be: it is told of later. */
  readonly end: vscode.Position;
}

export class Hints implements vscode.Disposable {
  private readonly changes = new WeakMap<vscode.TextDocument, Change>();
  private readonly listening = vscode.workspace.onDidChangeTextDocument((event) => {
    const last = event.contentChanges[0];
    if (last !== undefined) {
      const end = event.document.positionAt(last.rangeOffset + last.text.length);
      this.changes.set(event.document, { when: Date.now(), end });
    }
  });

  dispose(): void {
    this.listening.dispose();
  }

  /** What `ask` gives, when it can be shown as it is. */
  async inTime(
    document: vscode.TextDocument,
    ask: () => vscode.ProviderResult<vscode.InlayHint[]>,
    token: vscode.CancellationToken,
  ): Promise<vscode.InlayHint[]> {
    const asked = Date.now(); // what was asked for while it holds is held, or asked for again
    const hints = (await ask()) ?? [];
    const change = this.changes.get(document);
    if (change !== undefined && asked - change.when < HOLDS_MS) {
      const places = [change.end, ...cursorsIn(document)];
      if (places.some((place) => hints.some(({ position }) => isBefore(position, place)))) {
        await this.resting(document, token);
      }
    }
    return hints;
  }

  /** Until no key has come for long enough, or nobody waits any longer. */
  private async resting(document: vscode.TextDocument, token: vscode.CancellationToken): Promise<void> {
    const left = (): number => (this.changes.get(document)?.when ?? 0) + SURELY_OVER_MS - Date.now();
    while (!token.isCancellationRequested && left() > 0) {
      await pause(left(), token);
    }
  }
}

function cursorsIn(document: vscode.TextDocument): vscode.Position[] {
  return vscode.window.visibleTextEditors
    .filter((editor) => editor.document === document)
    .map((editor) => editor.selection.active);
}

function isBefore(hint: vscode.Position, place: vscode.Position): boolean {
  return hint.line === place.line && hint.character <= place.character;
}

/** When the time is over, or nobody waits any longer. */
function pause(milliseconds: number, token: vscode.CancellationToken): Promise<void> {
  return new Promise((done) => {
    const timer = setTimeout(done, milliseconds);
    token.onCancellationRequested(() => {
      clearTimeout(timer);
      done();
    });
  });
}
