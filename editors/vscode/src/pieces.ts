/** The pieces of a script with their times, as the document's symbols tell them. */

export interface Line {
  readonly line: number;
}

/** Of the protocol's DocumentSymbol, what is read here. Lines count from 0. */
export interface Symbol {
  readonly name: string;
  readonly detail?: string | undefined;
  readonly range: { readonly start: Line; readonly end: Line };
}

/** The piece whose time is shown: that at the line, or else the first that has one. */
export function pieceAt<S extends Symbol>(symbols: readonly S[], line: number): S | undefined {
  const timed = symbols.filter((symbol) => /^\d+:\d\d\b/.test(symbol.detail ?? ''));
  const around = (symbol: S): boolean =>
    symbol.range.start.line <= line && line <= symbol.range.end.line;
  return timed.findLast(around) ?? timed[0];
}
