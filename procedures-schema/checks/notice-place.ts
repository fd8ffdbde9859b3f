/** A notice stands before what it protects from, never after. */
import type { Draft, Span } from '../finding.ts';
import type { Section, Step } from '../format/index.ts';
import { foldWords, type Names } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';
import { noticeText } from './notice-text.ts';
import { eachNotice, eachProse } from './visit.ts';

const CUT = 'The edge is sharp. It can cut your hand. Keep your hand off it.';

export const noticePlace: ProcedureCheck = {
  id: 'notice-place',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every notice stand before the step it guards?',
  why: 'A warning read after the hand has moved is a report.',
  source: 'ANSI Z535.6 embedded notices (kinds from memory); DITA 1.3 step model: notes come before the command',
  cases: [
    { name: 'after the last step', finds: 1, work: `#. Clean the [scraper].\n\n:::caution\n^^^^^^^^^^\n${CUT}\n:::` },
    {
      name: 'after the step that has the thing it names',
      finds: 1,
      work: '#. Clean the [scraper].\n\n:::caution\n^^^^^^^^^^\nThe scraper is sharp. It can cut your hand. Keep your hand off its edge.\n:::\n\n#. Read the [air gauge].',
    },
    { name: 'before the step', finds: 0, work: `:::caution\n${CUT}\n:::\n\n#. Clean the [scraper].` },
    {
      name: 'in the step, before its substeps',
      finds: 0,
      work: `#. Clean the [scraper] like this.\n\n   :::caution\n   ${CUT}\n   :::\n\n   a. Read the [air gauge].\n   b. Look at the [scraper].`,
    },
  ],
  *run({ file, tree, names }) {
    for (const section of tree.sections) if (!section.prose) yield* betweenSteps(file, section, names);
    for (const { notice, step } of eachNotice(tree.sections)) {
      if (!step) continue;
      const rest = step.children.slice(step.children.indexOf(notice) + 1);
      if (rest.some((child) => child.kind === 'substeps' || child.kind === 'branches' || child.kind === 'objects')) continue;
      yield {
        // The page prints it ahead of the step all the same (F8); in the text it is read too late.
        ...draft(
          file,
          notice.span,
          'This notice stands under the words of the step it guards.',
          'before the step, so that it is read first',
        ),
        severity: 'advice',
      };
    }
  },
};

/** A notice between two steps guards the next one; its words must not belong to the one before instead. */
function* betweenSteps(file: string, section: Section, names: Names): Iterable<Draft> {
  let before: Step | undefined;
  for (const [index, block] of section.blocks.entries()) {
    if (block.kind === 'steps') before = block.steps.at(-1);
    if (block.kind !== 'notice' || before === undefined) continue;
    const next = section.blocks.slice(index + 1).find((later) => later.kind === 'steps');
    if (next?.kind !== 'steps') {
      yield draft(file, block.span, 'No step of this section follows this notice.', 'before the step it guards');
      continue;
    }
    const own = thingsIn(noticeText(block), names);
    const shared = [...own].filter((name) => thingsOf(before as Step, names).has(name));
    const after = thingsOf(next.steps[0] as Step, names);
    if (shared.length > 0 && ![...own].some((name) => after.has(name)))
      yield {
        ...draft(
          file,
          block.span,
          `This notice speaks of the ${shared.join(' and the ')}, which the step before it handles and the step it guards does not.`,
          'before the step that handles it',
        ),
        related: [{ file, span: before.lead.span, message: 'the step it seems to belong to' }],
      };
  }
}

function thingsOf(step: Step, names: Names): Set<string> {
  const out = new Set<string>();
  for (const prose of [step.lead, ...eachProse([{ kind: 'steps', span: step.span, steps: [step] }])])
    for (const name of thingsIn(prose.text, names)) out.add(name);
  return out;
}

/** Registered things named anywhere in a text, people and models apart. */
function thingsIn(text: string, names: Names): Set<string> {
  const words = foldWords(text).map(({ word }) => word);
  const out = new Set<string>();
  for (let at = 0; at < words.length; at += 1) {
    const found = names.match(words, at);
    if (!found) continue;
    for (const thing of found.things) if (!['model', 'role', 'machine', 'option', 'section'].includes(thing.kind)) out.add(thing.name);
    at += found.length - 1;
  }
  return out;
}

function draft(file: string, span: Span, message: string, expected: string): Draft {
  return { file, span, message, actual: 'after', expected };
}
