// Run as `node answer.js tokens|times GRAMMAR`: a JSON list of texts on standard input, and for
// each of them its tokens, or the milliseconds they took, on standard output.
import { readFileSync } from "node:fs";
import { grammarAt, millisecondsFor, tokensOf } from "./tokeniser.js";

const [what, path] = process.argv.slice(2);
const grammar = await grammarAt(path);
const answer = { tokens: tokensOf, times: millisecondsFor }[what];
const texts = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(texts.map((text) => answer(grammar, text))));
