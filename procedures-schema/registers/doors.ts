/** The doors of the registers with the problems found on the way. Schemas are not written yet: the lists of problems are empty. */
import type { Guide, Procedure, YamlFile } from '../format/index.ts';
import { decodeGuideHead, decodeHead } from './head.ts';
import type { GuideHead, ProcedureHead, Registers } from './model.ts';
import { decodeRegisters } from './read-registers.ts';

/** A schema or decoding problem of library.yaml, a register or front matter, already in words for people. */
export interface SchemaProblem {
  readonly span: { readonly start: number; readonly end: number };
  readonly message: string;
  readonly actual?: string;
  readonly expected?: string;
  readonly path: string;
}

export function readRegisters(files: readonly YamlFile[]): {
  registers: Registers;
  problems: ReadonlyMap<string, readonly SchemaProblem[]>;
} {
  return { registers: decodeRegisters(files), problems: new Map() };
}

export function readHead(tree: Procedure, _registers?: Registers): { head: ProcedureHead; problems: readonly SchemaProblem[] } {
  return { head: decodeHead(tree), problems: [] };
}

export function readGuideHead(tree: Guide): { head: GuideHead; problems: readonly SchemaProblem[] } {
  return { head: decodeGuideHead(tree), problems: [] };
}
