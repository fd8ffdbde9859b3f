/** The band beside a printed step. */
import { bandBeside as besideIn, type LabelledStep, type ProcedureFacts, provedOnAll } from '../../procedures-schema/index.ts';
import type { BandState } from '../book.ts';

export const bandBeside = (at: LabelledStep, { flow, read }: ProcedureFacts): BandState =>
  besideIn(at, read.labels.steps, flow, provedOnAll(flow));
