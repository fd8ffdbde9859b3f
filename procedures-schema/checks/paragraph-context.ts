/** What the reader is told when words that are no step are read as if they were one. */
import type { ReadingContext } from '../reading/index.ts';
import { familiesOf, type Registers } from '../registers/index.ts';
import type { ProcedureFacts } from './check.ts';

export const paragraphContext = ({ names, head }: Pick<ProcedureFacts, 'names' | 'head'>, registers: Registers): ReadingContext => ({
  names,
  registers,
  families: familiesOf(head, registers),
  language: 'en',
  kind: 'paragraph',
  measurements: head.measurements,
  roles: head.roles.map(({ name }) => name),
});
