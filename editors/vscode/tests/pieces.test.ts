/** Whose time the status bar shows. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pieceAt, type Symbol } from '../src/pieces.ts';

function symbol(name: string, start: number, end: number, detail?: string): Symbol {
  return { name, detail, range: { start: { line: start }, end: { line: end } } };
}

const SCRIPT = [
  symbol('draft', 0, 4, '142 words, 5:00 to write'),
  symbol('the long one', 5, 20, '1:25 of 1:00'),
  symbol('the short one', 20, 30, '0:42'),
  symbol('takes', 31, 33),
];

for (const [line, name] of [
  [0, 'the long one'],
  [5, 'the long one'],
  [19, 'the long one'],
  [20, 'the short one'],
  [30, 'the short one'],
  [32, 'the long one'],
  [99, 'the long one'],
] as const) {
  test(`at line ${line}`, () => assert.equal(pieceAt(SCRIPT, line)?.name, name));
}

test('a script without a piece has no time', () => {
  assert.equal(pieceAt([], 0), undefined);
  assert.equal(pieceAt(SCRIPT.slice(0, 1), 0), undefined);
});
