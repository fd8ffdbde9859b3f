/**
 * fast-check arbitraries of random procedures: a sound opening and closing with random work between them, then some slips. Branches,
 * rows of "if", repeats (nested too), calls of sections and procedures, facts, two roles, three sources of which two are cut off.
 * Long because the pieces of work are one table.
 */
import fc from 'fast-check';
import type { Action, ActionKind, Condition, Target } from '../../procedures-schema/index.ts';
import type { NaiveAct, NaiveLine, NaiveProcedure, NaiveStep } from './naive-procedure.ts';

/** A step before numbers are given. Targets are labels of steps. */
interface Draft {
  readonly label?: string;
  readonly acts?: readonly Action[];
  readonly bullets?: readonly { readonly when?: Condition; readonly act: Action }[];
  readonly words?: string;
  readonly standClear?: true;
}

const BY_HAND: readonly ActionKind[] = ['open', 'close', 'loosen', 'tighten', 'adjust', 'clean', 'measure', 'put-in', 'take-out'];

function action(kind: ActionKind, things: Readonly<Record<string, string | readonly string[]>> = {}, more: Partial<Action> = {}): Action {
  const uses = Object.entries(things).flatMap(([of, names]) =>
    [names].flat().map((name) => ({ thing: { kind: of as 'point', name }, at: 0, end: 0 })),
  );
  return { kind, things: uses, with: [], contact: BY_HAND.includes(kind), outside: false, amounts: [], when: [], at: 0, end: 0, ...more };
}
const step = (kind: ActionKind, things?: Parameters<typeof action>[1], more?: Partial<Action>): Draft => ({
  acts: [action(kind, things, more)],
});
/** What a gauge must show for its reading to prove something. */
const NOUGHT = { result: 'it must show 0 bar' };
const goTo = (id: string, more: Partial<Action> = {}): Action => action('go-to', {}, { target: { kind: 'step-id', id }, ...more });
const fact = (key: string, negated = false): Condition => ({ kind: 'fact', key, negated, text: `${negated ? 'not ' : ''}${key}` });
const outcome = (subject: string, value: 'under' | 'within' | 'over' | 'pass' | 'fail' | 'not-within'): Condition => ({
  kind: 'outcome',
  subject,
  outcome: value,
  text: `${subject} ${value}`,
});
const model = (...models: string[]): Condition => ({ kind: 'variant', models, options: [], negated: false, text: models.join(' or ') });
const guardIs = (state: 'open' | 'shut'): Condition => ({
  kind: 'state',
  thing: { kind: 'cover', name: 'side guard' },
  state,
  negated: false,
  text: `the side guard is ${state}`,
});

const CUT = ['main isolator', 'air valve', 'back valve'];
const guard = { cover: 'side guard' };
const scraper = { part: 'scraper' };
const bolts = { fastener: 'scraper bolts' };
const hose = { part: 'air hose' };

/** From the running machine to the open guard. */
const safe = (watch: boolean): Draft[] => [
  step('tell'),
  step('shut-down', { control: 'stop button' }),
  step('restrain', { point: 'drum pin' }),
  ...CUT.map((point) => step('isolate', { point })),
  step('lock', { point: CUT }),
  step('relieve', { point: 'dump valve' }),
  step('clear-people'),
  step('control', { control: 'speed knob' }, { position: 'run' }),
  step('try-out', { control: 'start button' }),
  step('control', { control: 'speed knob' }, { position: '0' }),
  step('observe', { gauge: 'air gauge' }, watch ? { manner: 'in view', ...NOUGHT } : NOUGHT),
  step('open', guard),
];
const live = (): Draft[] => [
  step('take-tools'),
  step('clear-people'),
  step('unrelieve', { point: 'dump valve' }),
  step('unlock', { point: CUT }),
  step('release', { point: 'drum pin' }),
  ...['back valve', 'air valve', 'main isolator'].map((point) => step('restore', { point })),
  step('tell'),
];
const close = (): Draft[] => [step('close', guard), ...live()];

type Piece = (label: string, flag: boolean, spoilt: boolean) => readonly Draft[];
/** Pieces of work, sound between `safe` and `close` unless they are spoilt. */
const PIECES: readonly Piece[] = [
  (_, __, bad) => [...(bad ? [step('control', { control: 'speed knob' }, { position: 'run' })] : []), step('clean', scraper)],
  (_, out, bad) => [
    step('loosen', bolts),
    ...(out ? [step('open', scraper), ...(bad ? [] : [step('close', scraper)])] : []),
    ...(bad && !out ? [] : [step('tighten', bolts)]),
  ],
  () => [step('loosen', bolts), step('tighten', bolts, { stage: 'hand' }), step('clean', scraper), step('tighten', bolts)],
  (at, all, bad) => [
    ...(bad ? [] : [step('measure', { measurement: 'gap' })]),
    {
      bullets: [
        { when: outcome('gap', 'within'), act: goTo(`${at}z`) },
        { when: outcome('gap', 'under'), act: action('clean', scraper) },
        ...(all ? [{ when: outcome('gap', 'over'), act: action('clean', scraper) }] : [{ act: action('adjust', scraper) }]),
      ],
    },
    { label: `${at}z`, acts: [action('clean', scraper)] },
  ],
  (at, first, bad) => [
    ...(first ? [step('measure', { measurement: 'gap' })] : []),
    { label: `${at}a`, acts: [action('adjust', scraper)] },
    { label: `${at}b`, acts: [action('measure', { measurement: 'gap' })] },
    step('repeat', {}, { target: { kind: 'steps-id', from: `${at}a`, to: bad ? `${at}a` : `${at}b` }, until: outcome('gap', 'within') }),
  ],
  (at, inner) => [
    { label: `${at}a`, acts: [action('loosen', bolts)] },
    { label: `${at}c`, acts: [action('sense', { measurement: 'noise' })] },
    step('repeat', {}, { target: { kind: 'steps-id', from: `${at}c`, to: `${at}c` }, until: outcome('noise', 'pass') }),
    { label: `${at}b`, acts: [action('tighten', bolts), ...(inner ? [action('measure', { measurement: 'gap' })] : [])] },
    step(
      'repeat',
      {},
      { target: { kind: 'steps-id', from: `${at}a`, to: `${at}b` }, until: inner ? outcome('gap', 'within') : outcome('noise', 'pass') },
    ),
  ],
  () => [
    {
      acts: [
        action('clean', scraper, { when: [fact('edge is clean')] }),
        action('adjust', scraper, { when: [fact('edge is clean', true)] }),
      ],
    },
  ],
  (_, twice) => [
    { acts: [action('loosen', bolts, { when: [fact('seal is old')] })] },
    ...(twice ? [step('clean', scraper)] : []),
    { acts: [action('tighten', bolts, { when: [fact('seal is old')] })] },
  ],
  (_, deep) => [step('call', {}, { target: { kind: 'section', title: deep ? 'Inner' : 'Outer' } })],
  (_, _out, bad) => [
    step('put-in', { tool: 'drum wedge' }),
    step('clean', scraper),
    ...(bad ? [] : [step('take-out', { tool: 'drum wedge' })]),
  ],
  (_, _shut, bad) => [step('open', hose), step('close', hose), ...(bad ? [] : [{ acts: [action('observe')], words: 'Do the leak test.' }])],
  () => [step('wait'), step('observe', { gauge: 'air gauge' }, NOUGHT)],
  (_, all, bad) => [
    {
      bullets: [
        { when: model('NA-10'), act: action('clean', scraper) },
        { when: model('NA-20', ...(all ? ['NA-30'] : [])), act: action('wait') },
        ...(bad ? [] : [{ act: action('clean', scraper) }]),
      ],
    },
  ],
  (_, __, bad) => [
    step('lock', { point: CUT }, { role: 'helper' }),
    step('clean', scraper, { role: 'helper' }),
    ...(bad ? [] : [step('close', guard)]),
    step('unlock', { point: CUT }, { role: 'helper' }),
    ...safe(true).slice(8, bad ? 13 : undefined),
  ],
  (_, flag, bad) => [
    ...(flag || !bad ? [step('close', guard)] : []),
    { ...(live()[0] as Draft), ...(flag || !bad ? {} : { standClear: true as const }) },
    ...live().slice(1, bad ? -1 : undefined),
    step('test-run', { control: 'start button' }),
    ...(flag || !bad ? [] : [step('shut-down', { control: 'stop button' }), ...safe(true).slice(2, 7), step('close', guard)]),
    ...safe(true),
  ],
  (_, dead, bad) => [
    ...(bad ? [step('unlock', { point: 'main isolator' })] : []),
    step('call', {}, { target: { kind: 'document', number: dead || bad ? 'NA-200' : 'NA-300' } }),
  ],
  (_, said) => [
    step('sense', { measurement: 'noise' }),
    { bullets: [{ when: outcome('noise', 'fail'), act: action('stop-and-call') }, ...(said ? [{ act: action('clean', scraper) }] : [])] },
  ],
  (at, back, bad) => [
    { label: `${at}a`, acts: [action('clean', scraper)] },
    { acts: [goTo(back && bad ? `${at}a` : `${at}z`, { when: [fact('seal is old')] })] },
    step('wait'),
    { label: `${at}z`, acts: [action('clean', scraper)] },
  ],
  () => [{ acts: [action('close', guard, { when: [guardIs('open')] })] }, { acts: [action('open', guard, { when: [guardIs('shut')] })] }],
  () => [
    { acts: [action('out-of-service', {}, { when: [fact('frame is cracked')] }), action('end', {}, { when: [fact('frame is cracked')] })] },
  ],
  () => [{ acts: [goTo('Close-first', { when: [fact('edge is clean')] })] }, step('clean', scraper)],
];

const CALL = 8;

/** Single actions that a slip puts in anywhere. */
const LOOSE: readonly Draft[] = [
  ...CUT.flatMap((point) => [step('isolate', { point }), step('restore', { point }), step('lock', { point }), step('unlock', { point })]),
  step('relieve', { point: 'dump valve' }),
  step('unrelieve', { point: 'dump valve' }),
  step('restrain', { point: 'drum pin' }),
  step('release', { point: 'drum pin' }),
  step('lock', { point: 'main isolator' }, { role: 'helper' }),
  step('clean', scraper, { role: 'helper' }),
  step('try-out', { control: 'start button' }),
  step('observe', { gauge: 'air gauge' }, NOUGHT),
  // Read without a word of what it must show, or only kept in view.
  step('observe', { gauge: 'air gauge' }),
  step('observe', { gauge: 'air gauge' }, { manner: 'in view' }),
  step('start', { control: 'start button' }),
  step('control', { control: 'speed knob' }, { position: 'run' }),
  step('open', guard),
  step('close', guard),
  step('open', scraper),
  step('close', scraper),
  step('open', hose),
  step('loosen', bolts),
  step('tighten', bolts),
  step('tighten', bolts, { stage: 'hand' }),
  step('put-in', { tool: 'drum wedge' }),
  step('wait'),
  step('tell'),
  step('measure', { measurement: 'gap' }),
  step('stop-and-call'),
  step('out-of-service'),
  goToDraft('Safe-first'),
  { acts: [action('clean', scraper, { when: [outcome('gap', 'over')] })] },
  { acts: [action('close', guard, { when: [model('NA-20')] })] },
  step('call', {}, { target: { kind: 'section', title: 'Outer' } }),
  step('call', {}, { target: { kind: 'section', title: 'Work' } }),
  step('repeat', {}, { target: { kind: 'steps-id', from: 'Safe-first', to: 'Safe-first' }, until: outcome('gap', 'within') }),
];
function goToDraft(id: string): Draft {
  return { acts: [goTo(id)] };
}

const LAST: readonly Draft[] = [
  step('put-in', { tool: 'drum wedge' }),
  step('put-in', { tool: 'drum wedge' }),
  step('loosen', bolts),
  step('open', guard),
  step('lock', { point: 'main isolator' }, { role: 'helper' }),
  step('lock', { point: 'air valve' }, { role: 'helper' }),
  step('lock', { point: 'air valve' }),
  step('isolate', { point: 'air valve' }),
  step('restrain', { point: 'drum pin' }),
  step('relieve', { point: 'dump valve' }),
  step('close', guard),
];

/** What is forgotten most: closing, tightening, taking out, testing, telling. */
const FORGOTTEN: readonly ActionKind[] = [
  ...(['close', 'close', 'tighten', 'take-out', 'observe', 'tell', 'tell', 'measure', 'measure'] as const),
  ...([
    'sense',
    'control',
    'control',
    'clear-people',
    'clear-people',
    'clear-people',
    'clear-people',
    'take-tools',
    'take-tools',
    'restore',
    'release',
  ] as const),
];

type Edit =
  | { readonly kind: 'drop' | 'twice'; readonly at: number }
  /** The first of the steps that do this, counted from one of them. */
  | { readonly kind: 'drop one that'; readonly at: number; readonly does: ActionKind }
  /** A control step of making safe is done last of all before the guard comes off. */
  | { readonly kind: 'late'; readonly does: ActionKind }
  /** One more step at the very end. */
  | { readonly kind: 'last'; readonly what: number }
  | { readonly kind: 'move'; readonly at: number; readonly to: number }
  | { readonly kind: 'put'; readonly at: number; readonly what: number };

export interface NaiveCase {
  readonly procedure: NaiveProcedure;
  readonly others: readonly NaiveProcedure[];
}

const place = fc.nat({ max: 999 });
const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 2, arbitrary: place.map((at): Edit => ({ kind: 'drop', at })) },
  { weight: 1, arbitrary: place.map((at): Edit => ({ kind: 'twice', at })) },
  {
    weight: 8,
    arbitrary: fc.tuple(place, fc.constantFrom<ActionKind>(...FORGOTTEN)).map(([at, does]): Edit => ({ kind: 'drop one that', at, does })),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom<ActionKind>('relieve', 'lock', 'isolate', 'restrain').map((does): Edit => ({ kind: 'late', does })),
  },
  { weight: 6, arbitrary: fc.nat({ max: LAST.length - 1 }).map((what): Edit => ({ kind: 'last', what })) },
  { weight: 2, arbitrary: fc.tuple(place, place).map(([at, to]): Edit => ({ kind: 'move', at, to })) },
  { weight: 3, arbitrary: fc.tuple(place, fc.nat({ max: LOOSE.length - 1 })).map(([at, what]): Edit => ({ kind: 'put', at, what })) },
);
const spoilt = fc.nat({ max: 5 }).map((one) => one === 0);
const which = fc.nat({ max: PIECES.length - 1 });
/** Work on parts, hoses, wedges and the running machine comes oftener, for the rules that only it can break. */
const piece = fc.record({
  which: fc.oneof({ weight: 3, arbitrary: which }, { weight: 1, arbitrary: fc.constantFrom(1, 1, 5, 9, 10, 13, 14, 15) }),
  flag: fc.boolean(),
  spoilt,
});
/** In an aside a call is as likely as all other work: that is how circles come about. */
const pieceOfAside = fc.record({
  which: fc.oneof({ weight: 1, arbitrary: which }, { weight: 2, arbitrary: fc.constant(CALL) }),
  flag: fc.boolean(),
  spoilt,
});

export const naiveCase: fc.Arbitrary<NaiveCase> = fc
  .record({
    watch: fc.nat({ max: 9 }).map((one) => one > 0),
    pieces: fc.array(piece, { minLength: 1, maxLength: 5 }),
    outer: fc.array(pieceOfAside, { maxLength: 1 }),
    inner: fc.array(pieceOfAside, { maxLength: 1 }),
    edits: fc.oneof({ weight: 8, arbitrary: fc.constant([]) }, { weight: 6, arbitrary: fc.array(edit, { minLength: 1, maxLength: 2 }) }),
    /** Rarely spoilt: an aside that is none, and an end of another kind. */
    aside: fc.nat({ max: 2 }).map((one) => one > 0),
    end: fc.nat({ max: 15 }),
  })
  .map(build);

type Parts = { watch: boolean; aside: boolean; end: number; edits: readonly Edit[] } & Record<
  'pieces' | 'outer' | 'inner',
  readonly { which: number; flag: boolean; spoilt: boolean }[]
>;

function build({ watch, pieces, outer, inner, edits, aside, end }: Parts): NaiveCase {
  const drafts = (list: Parts['pieces'], name: string): Draft[] =>
    list.flatMap(({ which, flag, spoilt }, index) => [...(PIECES[which] as Piece)(`${name}${index}`, flag, spoilt)]);
  const labelled = (list: Draft[], label: string): Draft[] => list.map((one, index) => (index === 0 ? { ...one, label } : one));
  const endsWith = end === 0 ? 'opened and locked out' : end === 1 ? 'out of service' : 'closed';
  let flat: { readonly section: number; readonly draft: Draft }[] = [
    ...labelled(safe(watch), 'Safe-first').map((draft) => ({ section: 0, draft })),
    ...drafts(pieces, 'W').map((draft) => ({ section: 1, draft })),
    ...(endsWith === 'closed' ? labelled(close(), 'Close-first').map((draft) => ({ section: 2, draft })) : []),
  ];
  for (const one of edits) {
    const at = ('at' in one ? one.at : 0) % flat.length;
    const there = flat[at] as (typeof flat)[number];
    if (one.kind === 'last') flat = [...flat, { section: flat.at(-1)?.section ?? 1, draft: LAST[one.what] as Draft }];
    if (one.kind === 'late') {
      const late = flat.find(({ draft }) => (draft.acts ?? []).some(({ kind }) => kind === one.does));
      const opening = flat.findIndex(({ draft }) => (draft.acts ?? []).some(({ kind }) => kind === 'open'));
      if (late && opening > flat.indexOf(late))
        flat = flat.toSpliced(opening, 0, late).filter((each, index) => each !== late || index === opening);
    }
    const doing = (draft: Draft): boolean => one.kind === 'drop one that' && (draft.acts ?? []).some(({ kind }) => kind === one.does);
    if (one.kind === 'drop one that') {
      const those = flat.filter(({ draft }) => doing(draft));
      const gone = those[one.at % Math.max(1, those.length)];
      flat = flat.filter((each) => each !== gone);
    }
    if (one.kind === 'drop') flat = flat.toSpliced(at, 1);
    else if (one.kind === 'twice') flat = flat.toSpliced(at, 0, { ...there, draft: withoutLabel(there.draft) });
    else if (one.kind === 'put') flat = flat.toSpliced(at, 0, { section: there.section, draft: LOOSE[one.what] as Draft });
    else if (one.kind === 'move') {
      const rest = flat.toSpliced(at, 1);
      const to = one.to % rest.length;
      flat = rest.toSpliced(to, 0, { section: (rest[to] as (typeof flat)[number]).section, draft: there.draft });
    }
  }
  // What nothing calls is left out, but now and then.
  const call = (list: readonly Draft[], title: string): boolean =>
    list.some(({ acts = [] }) => acts.some(({ target }) => target?.kind === 'section' && target.title === title));
  const main = flat.map(({ draft }) => draft);
  const outerCalled = call(main, 'Outer') || (call(main, 'Inner') && call(drafts(inner, 'I'), 'Outer'));
  const innerCalled = call(main, 'Inner') || (outerCalled && call(drafts(outer, 'O'), 'Inner'));
  const calls = (title: string): boolean => end === 2 || (title === 'Outer' ? outerCalled : innerCalled);
  const number = new Numbering();
  const section = (title: string, isAside: boolean, list: readonly Draft[]) => ({
    title,
    aside: isAside,
    steps: list.map((one) => number.step(one)),
  });
  const whole: NaiveProcedure = {
    number: 'NA-100',
    startsWith: 'closed',
    endsWith,
    sections: [
      ...['Safe', 'Work', 'Close'].map((title, index) =>
        section(
          title,
          false,
          flat.filter((one) => one.section === index).map(({ draft }) => draft),
        ),
      ),
      section('Outer', aside, [step('clean', scraper), ...drafts(outer, 'O')]),
      section('Inner', true, [step('clean', scraper), ...drafts(inner, 'I')]),
    ].filter(({ title }) => !ASIDES.includes(title) || calls(title)),
  };
  const other = (
    name: string,
    startsWith: NaiveProcedure['endsWith'] & NaiveProcedure['startsWith'],
    list: readonly Draft[],
  ): NaiveProcedure => ({
    number: name,
    startsWith,
    endsWith: startsWith,
    sections: [section(`Of ${name}`, false, list)],
  });
  return {
    procedure: number.settle(whole),
    others: [
      other('NA-200', 'opened and locked out', [step('clean', scraper)]),
      other('NA-300', 'closed', [step('tell'), step('start', { control: 'start button' }), step('shut-down', { control: 'stop button' })]),
    ],
  };
}

const ASIDES: readonly string[] = ['Outer', 'Inner'];

const withoutLabel = ({ label: _, ...rest }: Draft): Draft => rest;

/** Gives numbers to actions and ids to steps, and leads each target to the step with that label, or to the first of all where it is gone. */
class Numbering {
  private uid = 0;
  private steps = 0;
  private readonly ids = new Map<string, string>();

  step(draft: Draft): NaiveStep {
    this.steps += 1;
    const id = `s${this.steps}`;
    if (draft.label !== undefined && !this.ids.has(draft.label)) this.ids.set(draft.label, id);
    const line: NaiveLine = draft.bullets
      ? {
          kind: 'bullets',
          branches: draft.bullets.map(({ when, act }) => ({ uid: this.next(), ...(when ? { when } : {}), act: this.act(act, draft) })),
        }
      : { kind: 'sentences', acts: (draft.acts ?? []).map((one) => this.act(one, draft)) };
    return { id, line, standClear: draft.standClear ?? false };
  }

  settle(procedure: NaiveProcedure): NaiveProcedure {
    const first = procedure.sections.find(({ steps }) => steps.length > 0)?.steps[0]?.id ?? '';
    const at = (label: string): string => this.ids.get(label) ?? first;
    const led = (one: NaiveAct): NaiveAct => {
      const { target } = one.action;
      if (!target) return one;
      const to: Target =
        target.kind === 'step-id'
          ? { kind: 'step-id', id: at(target.id) }
          : target.kind === 'steps-id'
            ? { kind: 'steps-id', from: at(target.from), to: at(this.ids.has(target.to) ? target.to : target.from) }
            : target;
      return { ...one, action: { ...one.action, target: to } };
    };
    const line = (of: NaiveLine): NaiveLine =>
      of.kind === 'sentences'
        ? { kind: 'sentences', acts: of.acts.map(led) }
        : { kind: 'bullets', branches: of.branches.map((branch) => ({ ...branch, act: led(branch.act) })) };
    return {
      ...procedure,
      sections: procedure.sections.map((section) => ({
        ...section,
        steps: section.steps.map((one) => ({ ...one, line: line(one.line) })),
      })),
    };
  }

  private next(): number {
    this.uid += 1;
    return this.uid;
  }
  private act(of: Action, draft: Draft): NaiveAct {
    return { uid: this.next(), action: of, words: draft.words ?? of.kind };
  }
}
