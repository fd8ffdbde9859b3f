/** What hangs on a sentence that was not read, in words: told once, at the sentence, by whichever check tells of it. */
import type { Related, Span } from '../finding.ts';
import type { Rule, Violation } from '../flow/index.ts';
import { bareReferences } from './bare-reference.ts';
import type { ProcedureFacts } from './check.ts';
import { isOrAre, listed, placeName, type SentencePlace, wasOrWere } from './visit.ts';

const SHOWN: Readonly<Partial<Record<Rule, (thing: string) => string>>> = {
  'H-isolated': (thing) => `the ${thing} ${isOrAre(thing)} isolated`,
  'H-locked': (thing) => `the ${thing} ${isOrAre(thing)} locked`,
  'H-relieved': (thing) => `what the ${thing} stores is gone or held`,
  'H-proved': (thing) => `the ${thing} ${isOrAre(thing)} proved dead`,
  'proof-early': (thing) => `the ${thing} ${isOrAre(thing)} proved dead`,
  'earth-untested': (thing) => `the ${thing} ${isOrAre(thing)} tested dead`,
  'proof-used': (thing) => `the ${thing} ${isOrAre(thing)} proved dead`,
  'proof-empty': (thing) => `the ${thing} ${isOrAre(thing)} proved dead`,
  'point-locked': (thing) => `the lock on the ${thing} is off`,
  'R-people': () => 'people are clear',
  'R-tools': () => 'tools are away',
  'R-told': () => 'people are told',
  'E-told': () => 'people are told',
  'R-controls': () => 'the controls are off',
  'R-temporary': (thing) => `the ${thing} ${isOrAre(thing)} out`,
  'E-temporary': (thing) => `the ${thing} ${isOrAre(thing)} out`,
  'R-covers': (thing) => `the ${thing} ${isOrAre(thing)} on`,
  'E-cover': (thing) => `the ${thing} ${isOrAre(thing)} on`,
  'E-part': (thing) => `the ${thing} ${isOrAre(thing)} back in`,
  'E-fastener': (thing) => `the ${thing} ${isOrAre(thing)} tight`,
  'E-lock': (thing) => `the lock on the ${thing} is off`,
  'E-point': (thing) => `the ${thing} ${isOrAre(thing)} put back`,
  'E-return-test': (thing) => `the ${thing} ${isOrAre(thing)} tested`,
  'close-unopened': (thing) => `the ${thing} ${wasOrWere(thing)} open`,
  'outcome-unread': (thing) => `the ${thing} ${isOrAre(thing)} read`,
  'outcome-open': (thing) => `each outcome of the ${thing} has a way on`,
  'starts-with': (thing) => `the start of ${thing} is there`,
  'ends-with': (thing) => `the ${thing} ends as is said`,
};

export interface Hanging {
  /** " Until it is read, it cannot be shown that ...", or nothing. */
  readonly more: string;
  readonly related: readonly Related[];
}

export function hangingOn(violation: Violation | undefined): Hanging {
  const hangs = violation?.hangs ?? [];
  if (!violation || hangs.length === 0) return { more: '', related: [] };
  const said = [...new Set(hangs.map(({ rule, thing }) => SHOWN[rule]?.(thing) ?? `${thing} is right`))];
  // Two rules that hang on one sentence may say the same of the same step.
  const related = new Map<string, Related>();
  for (const { rule, thing, at } of hangs) {
    const message = `${placeName(at)} needs it: ${SHOWN[rule]?.(thing) ?? thing}`;
    related.set(`${at.file} ${at.span.start} ${message}`, { file: at.file, span: at.span, message });
  }
  return { more: ` Until it is read, it cannot be shown that ${listed(said)}.`, related: [...related.values()] };
}

/** Whether a sentence has a name that nobody registered, in brackets or bare, or a reference without brackets: then that is why it is unread. */
export function strangerIn(facts: ProcedureFacts, { sentence, prose }: Pick<SentencePlace, 'sentence' | 'prose'>): boolean {
  const bracketed = prose.marks.some(
    (mark) =>
      mark.kind === 'reference' &&
      mark.form.kind === 'name' &&
      mark.at >= sentence.at &&
      mark.at < sentence.end &&
      !/^section\s/i.test(mark.form.name) &&
      facts.names.lookup(mark.form.name).length === 0,
  );
  return bracketed || sentence.unknown.length > 0 || bareReferences(facts, { sentence, prose }).length > 0;
}

/** The violation that tells of the unread sentence at a place. */
export function unreadAt(facts: ProcedureFacts, span: Span): Violation | undefined {
  return facts.flow.violations.find(({ rule, at }) => rule === 'unread' && at.span.start <= span.start && span.end <= at.span.end);
}
