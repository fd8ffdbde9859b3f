/** What the reader is told besides the words: names, the machines, what came before. */
import type { Span } from '../finding.ts';
import type { Family, Measurement, Names, Registers, Thing } from '../registers/index.ts';
import type { Reading } from './action.ts';

export interface ReadingContext {
  readonly names: Names;
  readonly families: readonly Family[];
  readonly registers: Registers;
  readonly language: 'en';
  readonly kind: 'lead' | 'branch' | 'bullet' | 'condition' | 'paragraph';
  /** What "it" stands for coming in. */
  readonly carry?: Thing;
  /** What "both" stands for coming in. */
  readonly carryAll?: readonly Thing[];
  /** For object bullets: the reading that holds their verb. */
  readonly lead?: Reading;
  /** What the writer says outright (F14). */
  readonly override?: { readonly reads: string; readonly because: string; readonly by: string; readonly span: Span };
  readonly measurements: readonly Measurement[];
  readonly roles: readonly string[];
}
