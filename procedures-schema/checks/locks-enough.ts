/** Locks and tags that the front matter lists against those that the steps put on at the same time. */

import type { ListedName } from '../registers/index.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { registeredName } from './inventory.ts';
import { eachAction } from './visit.ts';

const files = { 'registers/tools.yaml': 'tools:\n  red padlock: {kind: lock}\n  red tag: {kind: tag}\n' };
const work = '#. Clean the [scraper].';

export const locksEnough: ProcedureCheck = {
  id: 'locks-enough',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does the list ask for as many locks and tags as the steps put on?',
  why: 'A technician who stands at the second point without a lock goes on without one.',
  source:
    '29 CFR 1910.147(d)(4): devices affixed to each energy isolating device by authorized employees; 1910.147(f)(3)(ii)(D): each their own',
  cases: [
    {
      name: 'one lock for two points',
      finds: 1,
      files,
      front: 'tools: [red padlock, {name: red tag, quantity: 2}]\n        ^^^^^^^^^^^',
      work,
    },
    {
      name: 'a lock and a tag for each point',
      finds: 0,
      files,
      front: 'tools: [{name: red padlock, quantity: 2}, {name: red tag, quantity: 2}]',
      work,
    },
  ],
  *run(facts, library) {
    for (const kind of ['lock', 'tag'] as const) {
      const names = new Set(library.registers.tools.filter((tool) => tool.kind === kind).map(({ name }) => name));
      const listed = facts.head.tools.filter(({ name }) => names.has(registeredName(facts, 'tool', name)));
      const entry = listed[0];
      // That one is listed at all is another check's question; "one for each person" is nobody's to count.
      if (entry === undefined || listed.some(({ quantity }) => quantity !== undefined && !/^\d+$/.test(quantity))) continue;
      const have = listed.reduce((sum, { quantity }) => sum + Number(quantity ?? '1'), 0);
      const need = mostAtOnce(
        facts,
        kind,
        library.registers.families.flatMap(({ points }) => points.filter(({ plug }) => plug)),
      );
      if (need <= have) continue;
      yield {
        file: facts.file,
        span: entry.span,
        message: `The steps put on ${need} ${kind}s at the same time, and the list has ${have === 1 ? 'one' : have}.`,
        actual: `${entry.name}: ${have}`,
        expected: `${entry.name}: ${need}`,
        ...fixOf(entry, need, facts),
      };
    }
  },
};

/** Over the text from top to bottom: a lock a point and a person, until it is taken off. A plug is kept, not locked. */
function mostAtOnce({ read }: ProcedureFacts, kind: 'lock' | 'tag', plugs: readonly { readonly name: string }[]): number {
  const off = kind === 'lock' ? 'unlock' : 'untag';
  const kept = new Set(plugs.map(({ name }) => name));
  const on = new Set<string>();
  let most = 0;
  for (const { action } of eachAction(read)) {
    if (action.kind !== kind && action.kind !== off) continue;
    for (const { thing } of action.things) {
      if (thing.kind !== 'point' || kept.has(thing.name)) continue;
      const key = `${action.role ?? ''}\n${thing.name}`;
      if (action.kind === kind) on.add(key);
      else on.delete(key);
    }
    most = Math.max(most, on.size);
  }
  return most;
}

/** Only where the entry is nothing but the name: what else is said of it is the writer's. */
function fixOf({ name, span, quantity, models, note }: ListedName, need: number, { file, source }: ProcedureFacts) {
  if (quantity !== undefined || models !== undefined || note !== undefined || source.text.slice(span.start, span.end) !== name) return {};
  const edits = [{ file, start: span.start, end: span.end, text: `{name: ${name}, quantity: ${need}}` }];
  return { fix: { title: `Ask for ${need}`, edits } };
}
