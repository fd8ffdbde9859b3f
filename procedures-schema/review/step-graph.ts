/** The graph of a procedure as plain data: its steps in order with the worst state each is begun in, and where each may lead. Draws nothing. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { bandAt, compile, type Program, provedOnAll, type ShownBand } from '../flow/index.ts';
import type { LabelledStep } from '../numbering/index.ts';

export interface GraphStep {
  readonly section: string;
  readonly label: string;
  readonly text: string;
  readonly span: Span;
  /** absent: no walk reaches it. */
  readonly state: ShownBand;
}

/** `to` undefined: the end. `note`: the answer that leads there. */
export interface GraphEdge {
  readonly from: number;
  readonly to?: number;
  readonly note: string;
}

export interface StepGraph {
  readonly title: string;
  readonly steps: readonly GraphStep[];
  readonly edges: readonly GraphEdge[];
}

/** `wordsOf`: a step's words as they are printed; else as they were read. */
export function stepGraph(facts: ProcedureFacts, program: Program, wordsOf = (at: LabelledStep): string => at.step.lead.text): StepGraph {
  const { steps } = facts.read.labels;
  const proved = provedOnAll(facts.flow);
  return {
    title: `${facts.head.id}  ${facts.head.title}`,
    steps: steps.map((at): GraphStep => {
      const state = bandAt(at, facts.flow, proved);
      return {
        section: at.section.title,
        label: at.label,
        text: wordsOf(at),
        span: at.step.span,
        state,
      };
    }),
    edges: edgesOf(program, new Map(steps.map((step, index) => [step, index]))),
  };
}

export function graphOf(facts: ProcedureFacts, library: LibraryFacts, wordsOf?: (at: LabelledStep) => string): StepGraph {
  const others = (number: string) => library.procedures.find(({ head }) => head.id === number)?.read;
  return stepGraph(facts, compile({ procedure: facts.read, others }), wordsOf);
}

/** From step to step, through everything that is no step; each pair once, with the answer that leads there. */
function edgesOf(program: Program, rowOf: ReadonlyMap<LabelledStep, number>): readonly GraphEdge[] {
  const out = new Map<string, GraphEdge>();
  program.code.forEach((instruction) => {
    if (instruction.op !== 'step') return;
    const from = rowOf.get(instruction.at);
    if (from === undefined) return;
    const seen = new Set<number>();
    const queue: { node: number; note: string }[] = [{ node: instruction.next, note: '' }];
    for (let item = queue.shift(); item !== undefined; item = queue.shift()) {
      const { node, note } = item;
      if (seen.has(node)) continue;
      seen.add(node);
      const next = program.code[node];
      if (next === undefined || next.op === 'end' || next.op === 'between') out.set(`${from} end`, { from, note });
      else if (next.op === 'step') {
        const to = rowOf.get(next.at);
        if (to !== undefined && !out.has(`${from} ${to}`)) out.set(`${from} ${to}`, { from, to, note });
      } else if (next.op === 'branch') {
        queue.push({ node: next.yes, note: next.note.replace(/[.,:;]+$/, '') }, { node: next.no, note });
      } else queue.push({ node: next.next, note });
    }
  });
  return [...out.values()];
}
