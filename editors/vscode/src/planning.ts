/**
 * “Plan a cut”, at the lens above a piece or from the list of commands: the plans in a list, whole.
 * The server would ask too, in a notice, whose buttons show no more than a plan's first words.
 */
import * as vscode from 'vscode';

/** The server's own command, which its lens names, with what it needs to know. */
export const PLAN = 'saywright.planCut';
const KIND = vscode.CodeActionKind.RefactorRewrite.append('cut');
const MOST_PLANS = 9;

/** What the lens above the piece at the cursor does. */
export async function planCut(): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  const lenses = editor ? await planLenses(editor.document.uri) : [];
  const line = editor?.selection.active.line ?? 0;
  const lens = lenses.findLast((each) => each.range.start.line <= line) ?? lenses[0];
  if (lens?.command === undefined) {
    void vscode.window.showInformationMessage('No piece in this script runs past its slot.');
    return;
  }
  await vscode.commands.executeCommand(PLAN, ...(lens.command.arguments ?? []));
}

/** Instead of what the lens's command would do, if the plans can be had as code actions. */
export async function choosePlan(told: unknown[], otherwise: () => unknown): Promise<unknown> {
  const editor = vscode.window.activeTextEditor;
  const lens = editor && (await lensWith(editor.document.uri, told));
  if (editor === undefined || lens === undefined) {
    return otherwise();
  }
  const { version, uri } = editor.document;
  const plans = await plansAt(uri, lens.range.start);
  if (plans.length === 0) {
    return otherwise();
  }
  const title = lens.command?.title ?? '';
  const chosen = await vscode.window.showQuickPick(
    plans.map((plan) => ({ label: withoutStart(plan.title, `${title}: `), plan })),
    { title, placeHolder: 'What a plan cuts is marked with ~~ and stays in the file' },
  );
  if (chosen?.plan.edit === undefined) {
    return undefined;
  }
  if (editor.document.version !== version) {
    return vscode.window.showInformationMessage('The script has changed since. Plan the cut again.');
  }
  return vscode.workspace.applyEdit(plain(chosen.plan.edit));
}

async function planLenses(uri: vscode.Uri): Promise<vscode.CodeLens[]> {
  const run = vscode.commands.executeCommand<vscode.CodeLens[] | undefined>;
  const lenses = (await run('vscode.executeCodeLensProvider', uri)) ?? [];
  return lenses.filter((lens) => lens.command?.command === PLAN);
}

async function lensWith(uri: vscode.Uri, told: unknown[]): Promise<vscode.CodeLens | undefined> {
  const wanted = JSON.stringify(told);
  const lenses = await planLenses(uri);
  return lenses.find((lens) => JSON.stringify(lens.command?.arguments) === wanted);
}

async function plansAt(uri: vscode.Uri, at: vscode.Position): Promise<vscode.CodeAction[]> {
  const run = vscode.commands.executeCommand<vscode.CodeAction[] | undefined>;
  const place = new vscode.Range(at, at);
  const name = 'vscode.executeCodeActionProvider';
  const actions = (await run(name, uri, place, KIND.value, MOST_PLANS)) ?? [];
  return actions.filter((action) => action.edit !== undefined && !action.disabled);
}

function withoutStart(text: string, start: string): string {
  return text.startsWith(start) ? text.slice(start.length) : text;
}

/** A plan from the menu at the cursor, where VS Code would want each of its marks ticked. */
export function unasked(action: vscode.CodeAction | null | undefined): typeof action {
  if (action?.edit !== undefined && action.kind !== undefined && KIND.contains(action.kind)) {
    action.edit = plain(action.edit);
  }
  return action;
}

/** Without the request to confirm each mark: the plan has been chosen, and is undone as one. */
function plain(edit: vscode.WorkspaceEdit): vscode.WorkspaceEdit {
  const made = new vscode.WorkspaceEdit();
  edit.entries().forEach(([uri, edits]) => made.set(uri, edits));
  return made;
}
