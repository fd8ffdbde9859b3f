/**
 * Steps that make one family's machine safe, and steps that put it back, made from the equipment register: stop, hold, isolate, lock and tag,
 * let out, wait, try out, read - each for every source. A draft for the writer: the register knows the points, not where people stand. The
 * order follows 29 CFR 1910.147 (d) and (e): shut down, isolate, lock, release stored energy, verify; then tools and people out, locks off.
 */
import { parseQuantity } from '../quantities/index.ts';
import type { Control, Family, Fitted, Point, Registers, Source } from '../registers/index.ts';
import { machineWord, otherPosition, toPosition } from './phrases.ts';
import { listed } from './reading-words.ts';

export interface SafeInput {
  readonly family: Family;
  readonly registers: Registers;
  /** Models that the procedure is for: what none of them has is left out. */
  readonly models: readonly string[];
  /** People with a lock of their own besides the reader. */
  readonly roles?: readonly string[];
}

/** Sentences, one a step, in order. */
export function makeSafeSteps(input: SafeInput): readonly string[] {
  const plan = planOf(input);
  const { machine, sources, isolators, selectors, only } = plan;
  const people = `the ${machine}`;
  return [
    `Tell the people at ${people} that it will be stopped.`,
    ...plan.stops.map((control) => only(control.fitted, `${pressed(control)}.`)),
    ...selectors.map((control) => only(control.fitted, `${toPosition(control.name, control.off ?? 'off')}.`)),
    ...holds(plan, false),
    ...isolators.flatMap(({ point, safe }) => isolating(point, safe, only)),
    ...locks(plan, 'Put your lock and tag on'),
    ...(input.roles ?? []).flatMap((role) => locks(plan, `The ${role} puts a lock and tag on`)),
    ...sources.flatMap((source) => source.relieve.map((use) => relieving(source, use, plan))).filter(once),
    ...holds(plan, true),
    ...sources.flatMap((source) =>
      source.settles === undefined
        ? []
        : [
            only(
              source.fitted,
              `Wait ${source.settles} for the [${source.name}] ${source.kind === 'thermal' ? 'to cool' : 'to run down'}.`,
            ),
          ],
    ),
    `Send everyone clear of ${people}.`,
    ...tryOuts(plan),
    ...sources.flatMap((source) => source.shownBy.map((gauge) => showing(source, gauge, plan))).filter(once),
    ...sources.flatMap((source) => watching(source, plan)),
  ];
}

/** Sentences that undo `makeSafeSteps`. Covers, parts and tools are the caller's. */
export function restoreSteps(input: SafeInput): readonly string[] {
  const plan = planOf(input);
  const { machine, only } = plan;
  const back = (use: 'relieve' | 'restrain', which: (source: Source) => boolean): readonly string[] =>
    plan.sources
      .filter(which)
      .flatMap((source) => source[use])
      .flatMap(({ point, safe }) => {
        const own = plan.point(point);
        const to = own && otherPosition(own, safe);
        return own && to !== undefined ? [only(own.fitted, `${toPosition(own.name, to)}.`)] : [];
      })
      .filter(once);
  return [
    `Take all tools away from the ${machine}.`,
    `Send everyone clear of the ${machine}.`,
    ...back('relieve', () => true),
    // A load is let off its restraint when its drive can carry it again; a spring or a rotor before it is driven.
    ...back('restrain', ({ kind }) => kind !== 'gravity'),
    ...(input.roles ?? []).flatMap((role) => locks(plan, `The ${role} takes their lock and tag off`)),
    ...locks(plan, 'Take your lock and tag off'),
    `Tell the people at the ${machine} that energy comes back.`,
    ...[...plan.isolators].reverse().flatMap(({ point, safe }) => {
      const to = otherPosition(point, safe);
      return to === undefined ? [] : [only(point.fitted, point.plug ? `Plug in the [${point.name}].` : `${toPosition(point.name, to)}.`)];
    }),
    ...back('restrain', ({ kind }) => kind === 'gravity'),
    `Tell the people at the ${machine} that it runs again.`,
  ];
}

/** What the register cannot tell, said to the writer beside the steps. */
export function safeNotes(input: SafeInput): readonly string[] {
  const { sources, machine } = planOf(input);
  const metered = sources.filter(({ tryOut, shownBy, provedWith }) => tryOut.length + shownBy.length === 0 && provedWith.length > 0);
  const unproved = sources.filter(({ tryOut, shownBy, provedWith }) => tryOut.length + shownBy.length + provedWith.length === 0);
  const loads = sources.filter(({ kind, restrain }) => kind === 'gravity' && restrain.length > 0);
  return [
    'A draft from the register: read every step beside the machine, and say who stands where.',
    ...metered.map(
      ({ name, provedWith }) =>
        `The ${name} is proved with the ${listed(provedWith, 'or')}: write it where its cover comes off, with its limit.`,
    ),
    ...unproved.map(({ name }) => `The register names nothing that shows the ${name} dead.`),
    ...loads.map(
      ({ name, restrain }) =>
        `Say in which place the ${machine} must stand for the ${listed(restrain.map(({ point }) => point))} to hold the ${name}, and how the load comes off again.`,
    ),
  ];
}

export interface WantedTool {
  readonly name: string;
  /** undefined: one. */
  readonly quantity?: string;
}

/** Tools that the steps use: a lock and a tag for each point and each person, by their registered names. */
export function safeTools(input: SafeInput): readonly WantedTool[] {
  const points = planOf(input).isolators.filter(({ point }) => point.lockable && !point.plug).length;
  const count = points * (1 + (input.roles ?? []).length);
  if (count === 0) return [];
  return ['lock', 'tag'].flatMap((word) => {
    const tool = input.registers.tools.find(({ name, kind, aliases }) => [name, kind, ...aliases].includes(word));
    return tool === undefined ? [] : [count === 1 ? { name: tool.name } : { name: tool.name, quantity: String(count) }];
  });
}

interface Plan {
  readonly machine: string;
  readonly input: SafeInput;
  readonly sources: readonly Source[];
  readonly isolators: readonly { readonly point: Point; readonly safe: string }[];
  readonly stops: readonly Control[];
  /** Controls that stay where they are put: off before energy goes, and on for a try-out. */
  readonly selectors: readonly Control[];
  readonly point: (name: string) => Point | undefined;
  /** The sentence, with the models or options that have the thing before it. */
  readonly only: (fitted: Fitted | undefined, sentence: string) => string;
}

function planOf(input: SafeInput): Plan {
  const { family } = input;
  const here = (thing: { readonly fitted?: Fitted }): boolean => isHere(thing.fitted, input);
  const sources = family.sources.filter(here);
  const point = (name: string): Point | undefined => family.points.find((one) => one.name === name && here(one));
  const isolators: { point: Point; safe: string }[] = [];
  for (const { isolate } of sources)
    for (const use of isolate) {
      const own = point(use.point);
      if (own && !isolators.some((one) => one.point === own)) isolators.push({ point: own, safe: use.safe });
    }
  const controls = family.controls.filter(here);
  const selectors = controls.filter(({ maintained, off }) => maintained && off !== undefined);
  return {
    machine: machineWord(family),
    input,
    sources,
    isolators,
    stops: controls.filter((control) => control.stops.length > 0 && control.starts.length === 0 && !selectors.includes(control)),
    selectors,
    point,
    only: (fitted, sentence) => prefixed(fitted, sentence, input, machineWord(family)),
  };
}

function once<T>(value: T, index: number, all: readonly T[]): boolean {
  return all.indexOf(value) === index;
}

// ---------------------------------------------------------------- fitted

/** `only on` names models and options in one list. */
function fittedTo(fitted: Fitted | undefined, { registers }: SafeInput) {
  const names = new Set([...(fitted?.models ?? []), ...(fitted?.options ?? [])]);
  return {
    models: registers.models.filter(({ name }) => names.has(name)).map(({ name }) => name),
    options: registers.options.filter(({ name }) => names.has(name)).map(({ name }) => name),
  };
}

function isHere(fitted: Fitted | undefined, input: SafeInput): boolean {
  if (!fitted) return true;
  const { models, options } = fittedTo(fitted, input);
  const having = input.registers.models.filter((model) => input.models.includes(model.name));
  return having.some((model) => models.includes(model.name) || model.options.some((option) => options.includes(option)));
}

function prefixed(fitted: Fitted | undefined, sentence: string, input: SafeInput, machine: string): string {
  if (!fitted) return sentence;
  const { models, options } = fittedTo(fitted, input);
  if (options.length === 0 && input.models.every((model) => models.includes(model))) return sentence;
  const who = options.length > 0 ? `For ${machine}s with the ${listed(options, 'or')}` : `For the ${listed(models)}`;
  return `${who}, ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}

// ---------------------------------------------------------------- sentences

function pressed(control: Control): string {
  if (control.positions.length > 0) return `Set the [${control.name}] to ${control.off ?? control.positions[0]}`;
  return `${control.holdToRun ? 'Hold' : 'Press'} the [${control.name}]`;
}

function isolating(point: Point, safe: string, only: Plan['only']): readonly string[] {
  if (point.plug) return [only(point.fitted, `Pull the [${point.name}] out.`), only(point.fitted, `Keep the [${point.name}] with you.`)];
  return [only(point.fitted, `${toPosition(point.name, safe)}.`)];
}

/** Points that every machine has take their locks in one step, the others in steps of their own. */
function locks({ isolators, only, input }: Plan, words: string): readonly string[] {
  const own = isolators.map(({ point }) => point).filter((point) => point.lockable && !point.plug);
  const always = own.filter((point) => prefixed(point.fitted, 'x', input, '') === 'x');
  const rest = own.filter((point) => !always.includes(point));
  const all =
    always.length === 0
      ? []
      : [
          `${words} the ${listed(always.map(({ name }) => `[${name}]`))
            .replace(/, \[/g, ', the [')
            .replace(' and [', ' and the [')}.`,
        ];
  return [...all, ...rest.map((point) => only(point.fitted, `${words} the [${point.name}].`))];
}

/** What turns must stand still before a pin goes in; a load or spring is held while its drive still holds it. */
function holds({ sources, point, only }: Plan, turning: boolean): readonly string[] {
  return sources
    .filter(({ kind }) => (kind === 'mechanical') === turning)
    .flatMap((source) => {
      const [gauge] = source.shownBy;
      const wait =
        turning && source.restrain.length > 0 && gauge !== undefined
          ? [only(source.fitted, `Wait until the [${gauge}] stands still.`)]
          : [];
      return [
        ...wait,
        ...source.restrain.flatMap((use) =>
          point(use.point) ? [only(point(use.point)?.fitted, `${toPosition(use.point, use.safe)}.`)] : [],
        ),
      ];
    })
    .filter(once);
}

const PRESSURE: ReadonlySet<string> = new Set(['pneumatic', 'hydraulic', 'steam', 'gas']);

function unitOfSize(source: Source): string | undefined {
  return parseQuantity(source.size)?.unit.symbol;
}

function relieving(source: Source, use: Source['relieve'][number], { only, point }: Plan): string {
  const own = point(use.point);
  return only(own?.fitted ?? source.fitted, `${toPosition(use.point, use.safe)} and leave it ${use.safe}.`);
}

/** A selector that is at off would let nothing move, live or not: the try-out would show nothing. */
function tryOuts({ sources, selectors, input, only, machine }: Plan): readonly string[] {
  const names = sources.flatMap(({ tryOut }) => tryOut).filter(once);
  const controls = names.flatMap((name) => input.family.controls.find((control) => control.name === name) ?? []);
  if (controls.length === 0) return [];
  const working = selectors.flatMap((control) => {
    const on = control.positions.find((position) => position !== control.off);
    return on === undefined ? [] : [{ control, on }];
  });
  return [
    ...working.map(({ control, on }) => only(control.fitted, `${toPosition(control.name, on)}.`)),
    ...controls.map((control) =>
      only(control.fitted, `${control.holdToRun ? `Hold the [${control.name}] for 5 s` : pressed(control)}: the ${machine} must not move.`),
    ),
    ...working.map(({ control }) => only(control.fitted, `${toPosition(control.name, control.off ?? 'off')}.`)),
  ];
}

function showing(source: Source, gauge: string, { only }: Plan): string {
  const unit = unitOfSize(source);
  if (PRESSURE.has(source.kind) && unit !== undefined) return only(source.fitted, `Read the [${gauge}]: it must show 0 ${unit}.`);
  if (source.kind === 'mechanical') return only(source.fitted, `Look at the [${gauge}]: it must not move.`);
  return only(source.fitted, `Look at the [${gauge}]: it must show that the [${source.name}] is held.`);
}

/** What can come back and is not held stays proved only under a watch. */
function watching(source: Source, { only }: Plan): readonly string[] {
  const [gauge] = source.shownBy;
  if (!source.canComeBack || source.restrain.length > 0 || gauge === undefined) return [];
  return [only(source.fitted, `Keep the [${gauge}] in view as long as hands are in the machine.`)];
}
