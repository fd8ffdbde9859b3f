/** Names in brackets, and objects of instructions, that no register knows: the names to settle. */
import type { Span } from '../finding.ts';
import type { Violation } from '../flow/index.ts';
import { proseSpan } from '../format/index.ts';
import { nearestNames } from '../registers/index.ts';
import { bareReferences } from './bare-reference.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { hangingOn, unreadAt } from './hanging.ts';
import { eachProse, eachSentence, endingIn } from './visit.ts';

export const namesKnown: ProcedureCheck = {
  id: 'names-known',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every named thing registered?',
  why: 'A thing without a register entry has no zone, no energy and no place: nothing can be proved of the hand that goes to it.',
  source: 'format rules F3 and F15',
  cases: [
    { name: 'a misspelt name in brackets', finds: 1, work: '#. Clean the [scrapper].\n             ^^^^^^^^^^' },
    { name: 'the last word of a registered name', finds: 1, work: '#. Tighten the [screws].\n               ^^^^^^^^' },
    { name: 'a registered name', finds: 0, work: '#. Clean the [scraper].' },
  ],
  *run(facts) {
    const { file, names } = facts;
    const said = new Set<number>();
    const blamed = new Set<Violation>();
    const unknown = function* (name: string, span: Span) {
      if (said.has(span.start)) return;
      said.add(span.start);
      const [spelled] = names.nearest(name);
      // "Shaft" where the register has a fan shaft: one is surely meant, of several one has to be chosen.
      const longer = spelled === undefined ? endingIn(names, name) : [];
      const nearest = spelled ?? (longer.length === 1 ? longer[0] : undefined);
      // The first name of a sentence that is unread for it tells what hangs on the sentence.
      const sentence = unreadAt(facts, span);
      const { more, related } = hangingOn(sentence && !blamed.has(sentence) ? sentence : undefined);
      if (sentence) blamed.add(sentence);
      yield {
        file,
        span,
        message: `"${name}" is not a registered name.${sentence ? ' So its sentence could not be read.' : ''}${more}`,
        actual: name,
        expected: nearest ?? pointsNear(facts, name) ?? (longer.length > 1 && longer.length <= 4 ? oneOf(longer) : SOME_NAME),
        ...(related.length > 0 ? { related } : {}),
        ...(nearest === undefined
          ? {}
          : { fix: { title: `Write ${nearest}`, edits: [{ file, ...editSpan(facts.source.text, span), text: nearest }] } }),
      };
    };
    const blocks = [...facts.tree.preface, ...facts.tree.sections.flatMap((section) => section.blocks)];
    for (const prose of eachProse(blocks))
      for (const mark of prose.marks)
        if (
          mark.kind === 'reference' &&
          mark.form.kind === 'name' &&
          !isTitle(facts, mark.form.name) &&
          // A section that is not there is told by reference-leads.
          !/^section\s/i.test(mark.form.name) &&
          names.lookup(mark.form.name).length === 0
        )
          yield* unknown(mark.form.name, mark.span);
    for (const { sentence, prose } of eachSentence(facts.read)) {
      const bare = sentence.unknown.length === 0 ? [] : bareReferences(facts, { sentence, prose });
      for (const { text, at, end } of sentence.unknown) {
        const inBrackets = prose.marks.some((mark) => mark.kind === 'reference' && mark.at < end && at < mark.end);
        // "steps #run to #read" is no name; reference-leads tells it.
        const meant = bare.some((one) => one.at < end && at < one.end);
        if (!inBrackets && !meant) yield* unknown(text, proseSpan(prose, at, end));
      }
    }
  },
};

const SOME_NAME = 'a name from the registers, or a new entry there';

/** A guess at a point may be the wrong valve (F3): all that the machine has are told, and none is picked out. */
function pointsNear({ machines }: ProcedureFacts, name: string): string | undefined {
  const points = [...new Set(machines.flatMap((machine) => machine.points.map((point) => point.name)))];
  if (nearestNames(name, points, 1).length === 0) return undefined;
  return points.length === 1
    ? `the point as the register has it: ${points[0]}`
    : `the one that is meant of these points: ${points.join(', ')}`;
}

const oneOf = (names: readonly string[]): string => `${names.slice(0, -1).join(', ')} or ${names.at(-1)}, or a new entry in the registers`;

function isTitle(facts: ProcedureFacts, name: string): boolean {
  const folded = name.toLowerCase();
  return facts.tree.sections.some((section) => section.title.toLowerCase() === folded);
}

/** Inside the brackets, where there are any. */
function editSpan(text: string, span: Span): Span {
  return text[span.start] === '[' ? { start: span.start + 1, end: span.end - 1 } : span;
}
