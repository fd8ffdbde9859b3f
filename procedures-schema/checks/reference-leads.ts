/** References and typed step numbers that lead nowhere or to several places. */
import type { Draft } from '../finding.ts';
import { proseSpan } from '../format/index.ts';
import { resolveReference } from '../numbering/index.ts';
import { bareReferences } from './bare-reference.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { hangingOn, unreadAt } from './hanging.ts';
import { eachProse, eachSentence, listed } from './visit.ts';

export const referenceLeads: ProcedureCheck = {
  id: 'reference-leads',
  scope: 'procedure',
  acrossFiles: true,
  severity: 'error',
  question: 'Does every reference to a step, range, section, table or figure lead to one place?',
  why: '"Go to step 12" in a procedure of eleven steps leaves a technician alone before an open machine.',
  source: 'design: references that stay right after every edit; format rule F3',
  cases: [
    { name: 'a step that does not exist', finds: 1, work: '#. Clean the [scraper].\n#. Go to step 9.\n         ^^^^^^' },
    {
      name: 'a section that does not exist',
      finds: 1,
      work: '#. Clean the [scraper].\n#. Go to [section Close down].\n         ^^^^^^^^^^^^^^^^^^^^',
    },
    {
      name: 'steps by their ids, without brackets',
      finds: 1,
      work: '#. {#clean} Clean the [scraper].\n#. {#read} Read the [scraper gap].\n#. Repeat steps #clean to #read until the [scraper gap] is within the limits.\n          ^^^^^^^^^^^^^^^^^^^^^^',
    },
    {
      name: 'steps by their ids, in brackets',
      finds: 0,
      work: '#. {#clean} Clean the [scraper].\n#. {#read} Read the [scraper gap].\n#. Repeat [steps #clean to #read] until the [scraper gap] is within the limits.',
    },
    { name: '"step" and a word that is no label', finds: 0, work: '#. Clean the [scraper].\n#. Look at the [scraper], step by step.' },
    { name: 'a step that does', finds: 0, work: '#. Clean the [scraper].\n#. Look at the [scraper]. If the edge is dirty, go to step 1.' },
  ],
  *run(facts, library) {
    yield* withoutBrackets(facts);
    const { file, tree, read, references } = facts;
    const title = (number: string): string | undefined => library.procedures.find((other) => other.head.id === number)?.head.title;
    for (const { span, text, resolved } of references) {
      const draft = draftOf(file, span, text, resolved);
      if (draft) yield draft;
    }
    for (const section of tree.sections)
      for (const prose of eachProse(section.blocks))
        for (const mark of prose.marks) {
          if (mark.kind !== 'reference') continue;
          const { form } = mark;
          // "[section Close down]" with no such section is a name by form and a reference by its first word.
          const meant = form.kind === 'name' && /^section\s/i.test(form.name);
          if (!meant && !['step', 'steps', 'section', 'table', 'figure'].includes(form.kind)) continue;
          const draft = draftOf(file, mark.span, `[${mark.content}]`, resolveReference(form, undefined, tree, read.labels, title));
          if (draft) yield draft;
        }
  },
};

/** The first of a sentence that is unread for it tells what hangs on the sentence. */
function* withoutBrackets(facts: ProcedureFacts): Iterable<Draft> {
  for (const place of eachSentence(facts.read))
    for (const [n, { at, end, right }] of bareReferences(facts, place).entries()) {
      const { file } = facts;
      const span = proseSpan(place.prose, at, end);
      const text = place.prose.text.slice(at, end);
      const unread = place.sentence.status === 'unread' ? unreadAt(facts, span) : undefined;
      const { more, related } = hangingOn(n === 0 ? unread : undefined);
      yield {
        file,
        span,
        message: `"${text}" stands without brackets, so nobody reads it as a reference.${unread ? ' So its sentence could not be read.' : ''}${more}`,
        actual: text,
        expected: right,
        ...(related.length > 0 ? { related } : {}),
        fix: { title: `Write ${right}`, edits: [{ file, start: span.start, end: span.end, text: right }] },
      };
    }
}

function draftOf(file: string, span: Draft['span'], text: string, resolved: ReturnType<typeof resolveReference>): Draft | undefined {
  if (resolved.kind === 'dead')
    return {
      file,
      span,
      message: `"${text}" leads nowhere: ${resolved.why}`,
      actual: text,
      expected: resolved.nearest ?? 'a step or section that exists',
    };
  if (resolved.kind === 'ambiguous')
    return {
      file,
      span,
      message: `"${text}" may be ${listed(
        resolved.candidates.map((step) => `step ${step.fullLabel}`),
        'or',
      )}.`,
      actual: text,
      expected: 'the step with its section, or a reference by id',
      steps: resolved.candidates.map((step) => step.fullLabel),
    };
  return undefined;
}
