/**
 * Search patterns in the usual notation, made into a program that runs in time linear in the text (pattern-run.ts): no pattern that
 * somebody types can hang the app. Known: letters, `.`, `[...]`, `\d \w \s` and their capitals, `\b`, `^`, `$`, groups, `|`, `* + ? {m,n}`, lazy
 * forms. Back references and look-arounds cannot be run so and are refused. After R. Cox, "Regular Expression Matching: the Virtual Machine
 * Approach" (2009).
 */

import { type Node, Parser } from './pattern-parse.ts';

export type Instruction =
  | { readonly op: 'char'; readonly matches: (unit: number) => boolean; readonly literal?: number }
  | { readonly op: 'split'; readonly first: number; readonly second: number }
  | { readonly op: 'jump'; readonly to: number }
  | { readonly op: 'save'; readonly slot: number }
  | { readonly op: 'assert'; readonly kind: Assertion }
  | { readonly op: 'match' };

/** Places that take no text. */
export type Assertion = 'line start' | 'line end' | 'word' | 'not word';

export interface Pattern {
  readonly code: readonly Instruction[];
  readonly groups: number;
}

export class PatternError extends Error {}

/** Repeats are written out; a pattern past this is refused. */
const MOST = 2000;

/** Throws PatternError with a sentence for whoever typed it. */
export function compilePattern(source: string, ignoreCase: boolean): Pattern {
  const parser = new Parser(source, ignoreCase);
  const tree = parser.whole();
  const code: Instruction[] = [{ op: 'save', slot: 0 }];
  emit(tree, code);
  code.push({ op: 'save', slot: 1 }, { op: 'match' });
  return { code, groups: parser.groups };
}

function emit(node: Node, code: Instruction[]): void {
  if (code.length > MOST) throw new PatternError('The pattern repeats too much to be run.');
  switch (node.kind) {
    case 'char':
      code.push({ op: 'char', matches: node.matches, ...(node.literal === undefined ? {} : { literal: node.literal }) });
      return;
    case 'assert':
      code.push({ op: 'assert', kind: node.assert });
      return;
    case 'all':
      for (const one of node.of) emit(one, code);
      return;
    case 'group':
      if (node.number !== undefined) code.push({ op: 'save', slot: node.number * 2 });
      emit(node.of, code);
      if (node.number !== undefined) code.push({ op: 'save', slot: node.number * 2 + 1 });
      return;
    case 'any':
      emitAny(node.of, code);
      return;
    case 'repeat':
      emitRepeat(node, code);
  }
}

function emitAny(of: readonly Node[], code: Instruction[]): void {
  const jumps: number[] = [];
  of.forEach((one, index) => {
    if (index === of.length - 1) {
      emit(one, code);
      return;
    }
    const split = code.length;
    code.push({ op: 'match' });
    emit(one, code);
    jumps.push(code.length);
    code.push({ op: 'match' });
    code[split] = { op: 'split', first: split + 1, second: code.length };
  });
  for (const jump of jumps) code[jump] = { op: 'jump', to: code.length };
}

function emitRepeat({ of, least, most, lazy }: Extract<Node, { kind: 'repeat' }>, code: Instruction[]): void {
  for (let n = 0; n < least; n++) emit(of, code);
  const split = (at: number, into: number, past: number): void => {
    code[at] = lazy ? { op: 'split', first: past, second: into } : { op: 'split', first: into, second: past };
  };
  if (most === Number.POSITIVE_INFINITY) {
    const at = code.length;
    code.push({ op: 'match' });
    emit(of, code);
    code.push({ op: 'jump', to: at });
    split(at, at + 1, code.length);
    return;
  }
  const splits: number[] = [];
  for (let n = least; n < most; n++) {
    splits.push(code.length);
    code.push({ op: 'match' });
    emit(of, code);
  }
  for (const at of splits) split(at, at + 1, code.length);
}
