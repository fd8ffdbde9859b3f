/** The cautions page every book opens with: whose rules come first, what the signal words mean, which dangers the procedures hold. */
import { eachNotice, type ProcedureFacts, type Section, type Step } from '../../procedures-schema/index.ts';
import type { Chapter, Flow, Inline } from '../book.ts';
import { appliesIn } from './edition.ts';
import { saidBy } from './notice-words.ts';
import { type ComposeInput, labelled, scopeOf, sectionAnchor, stepAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';

/** `asks`: with where to ask; a guide has a page of its own for that. */
export function cautionsChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean, asks: boolean): Chapter {
  const { house } = input.library.registers;
  const words = wordsOf(input).book;
  const paragraph = (inline: readonly Inline[]): Flow => [{ kind: 'paragraph', inline }];
  const text = (said: string): Inline[] => [{ kind: 'text', text: said }];
  const serious = procedures.map((facts) => ({ facts, notices: seriousOf(facts, input) })).filter(({ notices }) => notices.length > 0);
  const list: Flow = serious.flatMap(
    ({ facts, notices }): Flow => [
      { kind: 'heading', level: 3, text: `${facts.head.id} ${facts.head.title}`, bookmark: false },
      {
        kind: 'bullets',
        items: notices.map(
          ({ word, said, anchor }): Flow =>
            paragraph([
              { kind: 'strong', text: `${words.panel[word]}: ` },
              ...text(`${said} `),
              { kind: 'link', text: '', anchor, page: true },
            ]),
        ),
      },
    ],
  );
  return {
    title: words.cautionsTitle,
    anchor: 'cautions',
    startRight,
    blocks: [
      { kind: 'bullets', items: words.cautions.map((caution) => paragraph(text(caution))) },
      { kind: 'heading', level: 2, text: words.signalTitle, bookmark: true },
      ...words.signals.map(([word, said]) => ({ kind: 'notice', word, panel: words.panel[word], body: paragraph(text(said)) }) as const),
      // A notice keeps to what it guards; these guard nothing.
      { kind: 'space', lines: 0.1 },
      { kind: 'heading', level: 2, text: words.bandTitle, bookmark: true },
      { kind: 'paragraph', style: 'sent', inline: text(words.bandIntro) },
      { kind: 'band-key' },
      { kind: 'heading', level: 2, text: words.noticesTitle, bookmark: true },
      ...(list.length > 0 ? list : paragraph(text(words.noNotices))),
      ...(house.assistance.length === 0 || !asks
        ? []
        : ([
            { kind: 'heading', level: 2, text: words.assistanceTitle, bookmark: false },
            { kind: 'bullets', items: house.assistance.map((line) => paragraph(text(line))) },
          ] as const)),
    ],
  };
}

interface Serious {
  readonly word: 'danger' | 'warning';
  readonly said: string;
  /** Where it stands first. */
  readonly anchor: string;
}

/** Danger and warning notices, each wording once, in order. */
function seriousOf(facts: ProcedureFacts, input: ComposeInput): readonly Serious[] {
  const scope = scopeOf(facts, input, new Set());
  const applies = appliesIn(scope);
  const out = new Map<string, Serious>();
  for (const { notice, section, step: own, heading } of eachNotice(facts.tree.sections)) {
    // Between two steps it guards the next one.
    const step = own ?? (heading ? undefined : nextStep(facts, section, notice.span.end));
    if (notice.word !== 'danger' && notice.word !== 'warning') continue;
    if (step !== undefined && !applies.step(step)) continue;
    const said = saidBy(notice, scope);
    if (said !== '' && !out.has(said)) out.set(said, { word: notice.word, said, anchor: anchorOf(facts, section, step) });
  }
  return [...out.values()];
}

const nextStep = ({ read }: ProcedureFacts, section: Section, after: number): Step | undefined =>
  read.labels.steps.find((one) => one.section === section && one.step.span.start >= after)?.step;

const anchorOf = (facts: ProcedureFacts, section: Section, step: Step | undefined): string =>
  step === undefined ? sectionAnchor(facts.head.id, section) : stepAnchor(facts.head.id, labelled(step, { facts }).order);
