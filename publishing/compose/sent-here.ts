/** Sections apart from the main line: which steps send a reader there, whether there is a way back, and where the main line ends. */
import { eachAction, type LabelledStep, type Section } from '../../procedures-schema/index.ts';
import type { BookBlock, Inline } from '../book.ts';
import { PRINTED_LANGUAGES, printedWords } from '../printed-words/index.ts';
import { type Applies, appliesIn } from './edition.ts';
import { stepLink } from './inline.ts';
import { type Scope, sectionAnchor } from './scope.ts';

const text = (said: string): Inline => ({ kind: 'text', text: said });

/** What stands under the heading of a section that is done only when a step asks for it; nothing in the main line. */
export function sentHere(section: Section, scope: Scope): BookBlock[] {
  if (!section.aside || !hasSteps(section)) return [];
  const { words } = scope;
  const { calls, jumps } = sendersOf(section, scope);
  const all = [...new Set([...calls, ...jumps])].sort((a, b) => a.order - b.order);
  const inline: Inline[] = [{ kind: 'strong', text: all.length === 0 ? `${words.sentHere}.` : `${words.sentHere}:` }];
  all.forEach((step, index) => {
    inline.push(text(index === 0 ? ' ' : ', '), stepLink(step, step.section === section, scope));
  });
  if (all.length > 0) inline.push(text('.'));
  // After "as in" the reader goes on where they were; after "go to" they do not.
  if (calls.size > 0) inline.push(text(` ${jumps.size === 0 ? words.thenBack : words.backIfCalled}`));
  return [{ kind: 'paragraph', style: 'sent', inline }];
}

/** What stands after the last section of the main line where others follow it: a reader who goes in order would walk into them. */
export function endsHere(section: Section, scope: Scope): BookBlock[] {
  const { sections } = scope.facts.tree;
  const main = sections.filter((one) => !one.aside && hasSteps(one));
  const after = sections.slice(sections.indexOf(section) + 1);
  if (main[main.length - 1] !== section || !after.some((one) => one.aside && hasSteps(one))) return [];
  const { endsHere: ends, fillIn, onlyIfSent } = scope.words;
  // Where the writer says so in the last step, it is not said twice.
  const inline: Inline[] = saysSo(section, scope) ? [] : [{ kind: 'strong', text: ends }, text(' ')];
  const records = after.find((one) => one.prose && !hasSteps(one));
  if (records !== undefined)
    inline.push(
      text(`${fillIn} `),
      { kind: 'link', text: records.title, anchor: sectionAnchor(scope.facts.head.id, records), page: true },
      text('. '),
    );
  inline.push(text(onlyIfSent));
  return [{ kind: 'paragraph', style: 'ends', inline }];
}

/** So many steps further down nobody sees any more what stands under the heading. */
const LONG = 6;

/** What stands at the end of a long section that is called: where the reader came from. */
export function backFrom(section: Section, scope: Scope): BookBlock[] {
  if (!section.aside || topSteps(section) < LONG) return [];
  const calls = [...sendersOf(section, scope).calls].sort((a, b) => a.order - b.order);
  if (calls.length === 0) return [];
  const inline: Inline[] = [{ kind: 'strong', text: scope.words.goBack }];
  calls.forEach((step, index) => {
    inline.push(
      text(index === 0 ? ' ' : index === calls.length - 1 ? ` ${scope.words.or} ` : ', '),
      stepLink(step, step.section === section, scope),
    );
  });
  return [{ kind: 'paragraph', style: 'ends', inline: [...inline, text('.')] }];
}

const topSteps = (section: Section): number =>
  section.blocks.reduce((sum, block) => sum + (block.kind === 'steps' ? block.steps.length : 0), 0);

function saysSo(section: Section, { facts }: Scope): boolean {
  const last = facts.read.labels.steps.filter((step) => step.section === section && step.path.length === 1).at(-1);
  const said = last?.step.lead.text.trim();
  if (PRINTED_LANGUAGES.some((language) => printedWords(language).book.endsHere === said)) return true;
  return eachAction(facts.read).some(({ action, step }) => action.kind === 'end' && step === last && action.when.length === 0);
}

const hasSteps = (section: Section): boolean => section.blocks.some((block) => block.kind === 'steps');

function sendersOf(
  section: Section,
  scope: Scope,
): { readonly calls: ReadonlySet<LabelledStep>; readonly jumps: ReadonlySet<LabelledStep> } {
  const { facts } = scope;
  const applies = appliesIn(scope);
  const calls = new Set<LabelledStep>();
  const jumps = new Set<LabelledStep>();
  for (const { action, step } of eachAction(facts.read)) {
    if ((action.kind !== 'call' && action.kind !== 'go-to') || action.target === undefined) continue;
    const to = facts.read.resolve(action.target, step);
    const leads =
      to.kind === 'section' ? to.document === undefined && to.section === section : to.kind === 'step' && to.step.section === section;
    if (!leads || step.section === section || !printed(step, applies)) continue;
    (action.kind === 'call' ? calls : jumps).add(step);
  }
  return { calls, jumps };
}

/** In an edition for one model a step may be left out, or the one that it is a part of. */
function printed(step: LabelledStep, applies: Applies): boolean {
  for (let one: LabelledStep | undefined = step; one !== undefined; one = one.parent) if (!applies.step(one.step)) return false;
  return true;
}
