// The tokeniser of VS Code, with a grammar read from a file.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

const LINE = /([^\r\n]*)(\r\n|\r|\n|$)/g; // where VS Code ends a line

/** The grammar in the file at `path`. Throws where one of its patterns is none. */
export async function grammarAt(path) {
  const wasm = createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm");
  await oniguruma.loadWASM(readFileSync(wasm));
  const raw = textmate.parseRawGrammar(readFileSync(path, "utf8"), path);
  patternsIn(raw).forEach((pattern) => new oniguruma.OnigScanner([pattern]).dispose());
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => raw,
  });
  return registry.loadGrammar(raw.scopeName);
}

function patternsIn(rule) {
  return Object.entries(rule).flatMap(([key, value]) => {
    if (value && typeof value === "object") return patternsIn(value);
    return ["match", "begin", "end", "while"].includes(key) ? [value] : [];
  });
}

/** Tokens as [start, end, scopes], in half-open code points of `text`, line ends left out. */
export function tokensOf(grammar, text) {
  const offsets = codePointOffsets(text);
  const tokens = [];
  let stack = textmate.INITIAL;
  for (const { 1: line, index } of text.matchAll(LINE)) {
    const read = grammar.tokenizeLine(line, stack);
    stack = read.ruleStack;
    for (const { startIndex, endIndex, scopes } of read.tokens) {
      const end = Math.min(endIndex, line.length);
      if (startIndex >= end) continue;
      tokens.push([offsets[index + startIndex], offsets[index + end], scopes.join(" ")]);
    }
  }
  return tokens;
}

function codePointOffsets(text) {
  const offsets = new Uint32Array(text.length + 1);
  for (let unit = 0; unit < text.length; unit += 1) {
    const isFirstOfPair = text.codePointAt(unit) > 0xffff;
    offsets[unit + 1] = offsets[unit] + (isFirstOfPair ? 0 : 1);
  }
  return offsets;
}

/** The shorter of two times that `text` took, in milliseconds, as an editor asks for it. */
export function millisecondsFor(grammar, text) {
  const times = [1, 2].map(() => {
    const start = performance.now();
    let stack = textmate.INITIAL;
    for (const line of text.split("\n")) stack = grammar.tokenizeLine2(line, stack).ruleStack;
    return performance.now() - start;
  });
  return Math.min(...times);
}
