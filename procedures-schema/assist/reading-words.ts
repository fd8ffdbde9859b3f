/** How an action was read, in short plain words: "isolates mains supply: main isolator off". Wording only; what it does is flow/. */
import type { Action, ActionKind, Condition, Target, ThingUse } from '../reading/index.ts';
import type { Family, Source } from '../registers/index.ts';

/** The verb of each kind in the third person. `bare` is said where no thing is named. */
const VERBS: Readonly<Record<ActionKind, { readonly verb: string; readonly bare?: string }>> = {
  'shut-down': { verb: 'stops the machine with', bare: 'stops the machine' },
  isolate: { verb: 'isolates' },
  lock: { verb: 'puts a lock on', bare: 'puts a lock on' },
  tag: { verb: 'puts a tag on', bare: 'puts a tag on' },
  relieve: { verb: 'lets out' },
  restrain: { verb: 'holds' },
  'try-out': { verb: 'tries out with', bare: 'tries out' },
  prove: { verb: 'shows dead by', bare: 'shows dead' },
  control: { verb: 'sets the control' },
  unlock: { verb: 'takes the lock off', bare: 'takes the lock off' },
  untag: { verb: 'takes the tag off', bare: 'takes the tag off' },
  restore: { verb: 'switches in again' },
  unrelieve: { verb: 'ends letting out' },
  release: { verb: 'takes the hold off' },
  start: { verb: 'starts the machine with', bare: 'starts the machine' },
  'test-run': { verb: 'runs for a test with', bare: 'runs for a test' },
  'make-energy': { verb: 'brings in energy with', bare: 'brings in energy' },
  open: { verb: 'opens or takes off', bare: 'opens' },
  close: { verb: 'closes or puts back', bare: 'closes' },
  renew: { verb: 'renews' },
  loosen: { verb: 'loosens' },
  tighten: { verb: 'tightens' },
  adjust: { verb: 'adjusts' },
  clean: { verb: 'cleans' },
  apply: { verb: 'applies' },
  move: { verb: 'moves' },
  handle: { verb: 'handles' },
  measure: { verb: 'measures' },
  sense: { verb: 'looks, listens or feels at', bare: 'looks, listens or feels' },
  observe: { verb: 'reads' },
  'put-in': { verb: 'puts in for a time' },
  'take-out': { verb: 'takes out again' },
  use: { verb: 'uses' },
  tell: { verb: 'tells people about', bare: 'tells people' },
  'clear-people': { verb: 'sends people clear of', bare: 'sends people clear' },
  'take-tools': { verb: 'takes tools away from', bare: 'takes tools away' },
  'stand-clear': { verb: 'stands clear of', bare: 'stands clear' },
  protect: { verb: 'puts on' },
  wait: { verb: 'waits for', bare: 'waits' },
  'go-to': { verb: 'goes to' },
  repeat: { verb: 'repeats' },
  reverse: { verb: 'reverses' },
  call: { verb: 'does and comes back:' },
  'continue-with': { verb: 'hands over to' },
  refer: { verb: 'refers to', bare: 'refers' },
  'stop-and-call': { verb: 'stops and calls for help', bare: 'stops and calls for help' },
  end: { verb: 'ends with', bare: 'ends the procedure' },
  record: { verb: 'writes down', bare: 'writes down' },
  'out-of-service': { verb: 'takes out of service', bare: 'takes the machine out of service' },
};

/** Kinds on which the proof of safety rests: what a person accepts once. */
const EARNS: ReadonlySet<ActionKind> = new Set<ActionKind>([
  'shut-down',
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'try-out',
  'prove',
  'clear-people',
  'take-tools',
  'stand-clear',
  'wait',
]);

export function earnsSafety(action: Action): boolean {
  return EARNS.has(action.kind);
}

/** `families` say which sources a point belongs to. */
export function actionWords(action: Action, families: readonly Family[]): string {
  const core = pointWords(action, families) ?? thingWords(action);
  const tools = action.with.length === 0 ? '' : ` with ${listed(action.with.map(({ thing }) => thing.name))}`;
  const amounts = action.amounts.length === 0 ? '' : ` (${action.amounts.map(({ text }) => text.trim()).join(', ')})`;
  const outside = action.outside ? ', from outside' : '';
  const role = action.role === undefined ? '' : `, by the ${action.role}`;
  const until = action.until === undefined ? '' : `, until ${conditionWords(action.until)}`;
  const when = action.when.length === 0 ? '' : `, if ${action.when.map(conditionWords).join(' and ')}`;
  return `${core}${tools}${amounts}${outside}${role}${until}${when}`;
}

const BY_USE: Partial<Readonly<Record<ActionKind, 'isolate' | 'relieve' | 'restrain'>>> = {
  isolate: 'isolate',
  restore: 'isolate',
  relieve: 'relieve',
  unrelieve: 'relieve',
  restrain: 'restrain',
  release: 'restrain',
};

/** Actions on points name the sources they act on, then the point and its position. */
function pointWords(action: Action, families: readonly Family[]): string | undefined {
  const use = BY_USE[action.kind];
  if (use === undefined || action.things.length === 0) return undefined;
  const sources: string[] = [];
  const points: string[] = [];
  for (const { thing } of action.things) {
    if (thing.kind !== 'point') {
      sources.push(thing.name);
      continue;
    }
    const own = families.flatMap((family) => family.sources).filter((source) => usesPoint(source, use, thing.name));
    for (const source of own) if (!sources.includes(source.name)) sources.push(source.name);
    const safe = own.flatMap((source) => source[use]).find(({ point }) => point === thing.name)?.safe;
    const position = action.position ?? (action.kind === use ? safe : undefined);
    points.push(position === undefined ? thing.name : `${thing.name} ${position}`);
  }
  const { verb } = VERBS[action.kind];
  const what = sources.length > 0 ? ` ${listed(sources)}` : '';
  return points.length === 0 ? `${verb}${what}` : `${verb}${what}: ${listed(points)}`;
}

function usesPoint(source: Source, use: 'isolate' | 'relieve' | 'restrain', point: string): boolean {
  return source[use].some((one) => one.point === point);
}

function thingWords(action: Action): string {
  const { verb, bare } = VERBS[action.kind];
  const target = action.target === undefined ? undefined : targetWords(action.target);
  const things = action.things.map(useWords);
  const objects = listed([...things, ...(target === undefined ? [] : [target])]);
  const stage = action.stage === 'hand' ? ' by hand' : action.stage === 'first' ? ' in a first stage' : '';
  const position = action.position === undefined ? '' : ` ${action.position}`;
  return `${objects === '' ? (bare ?? verb) : `${verb} ${objects}`}${position}${stage}`;
}

function useWords({ thing, count, all, place, except }: ThingUse): string {
  const many = count !== undefined ? `${count} ` : all ? 'all ' : '';
  return `${many}${place === undefined ? '' : `${place} `}${thing.name}${except === undefined ? '' : ` but the ${except}`}`;
}

function targetWords(target: Target): string {
  switch (target.kind) {
    case 'step-id':
      return `step #${target.id}`;
    case 'steps-id':
      return `steps #${target.from} to #${target.to}`;
    case 'typed-step':
      return `step ${target.label}${target.section === undefined ? '' : ` of ${target.section}`}`;
    case 'typed-steps':
      return `steps ${target.from} to ${target.to}${target.section === undefined ? '' : ` of ${target.section}`}`;
    case 'section':
      return [target.document, target.title ?? (target.id === undefined ? undefined : `#${target.id}`)]
        .filter((part) => part !== undefined)
        .join(': ');
    case 'document':
      return target.number;
  }
}

export function conditionWords(condition: Condition): string {
  switch (condition.kind) {
    case 'variant': {
      const serial = condition.serial;
      const range = serial ? [`serial ${serial.from ?? ''} to ${serial.to ?? ''}`.replace(/ {2}/g, ' ').trim()] : [];
      return `${condition.negated ? 'not ' : ''}${listed([...condition.models, ...condition.options, ...range], 'or')}`;
    }
    case 'fact':
      return `${condition.negated ? 'not: ' : ''}${condition.text.replace(/[.;:]+$/, '')}`;
    case 'outcome':
      return `${condition.subject ?? 'the last reading'} ${OUTCOMES[condition.outcome]}`;
    case 'state':
      return `${condition.thing.name} ${condition.negated ? 'not ' : ''}${condition.state}`;
    case 'unread':
      return `"${condition.text}" (not understood)`;
  }
}

const OUTCOMES: Readonly<Record<Extract<Condition, { kind: 'outcome' }>['outcome'], string>> = {
  under: 'is under the limit',
  within: 'is within the limits',
  over: 'is over the limit',
  pass: 'passes',
  fail: 'fails',
  'not-within': 'is not within the limits',
};

export function listed(names: readonly string[], word = 'and'): string {
  if (names.length <= 1) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${word} ${names[names.length - 1]}`;
}

/** Cut at a word's end. */
export function clipped(text: string, length = 80): string {
  if (text.length <= length) return text;
  const cut = text.lastIndexOf(' ', length - 1);
  return `${text.slice(0, cut > length / 2 ? cut : length - 1)}…`;
}
