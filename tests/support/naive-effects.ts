/**
 * What one action does to the naive state, and rules H, R and 13, written from the text of semantics.md and from nothing of `flow/`.
 * Long because it is a second reading of one page, to be laid beside it paragraph by paragraph.
 */
import type { Action, ActionKind, Machine, Source, Thing } from '../../procedures-schema/index.ts';
import { causeOf, copyOf, get, keep, type Naive, put } from './naive-state.ts';

export interface Slip {
  readonly rule: string;
  readonly thing: string;
  readonly cause: number;
}

export interface World {
  readonly machine: Machine;
  /** Names of tools that stay on the machine while in use. */
  readonly temporary: readonly string[];
  readonly roles: readonly string[];
  /** The library's profile: electrical energy is tested dead before it is earthed. */
  readonly earthLast?: boolean;
  /** Of a library with instruments and replacements; random procedures have none. */
  readonly kindOf?: (tool: string) => string | undefined;
  readonly makes?: (tool: string) => string | undefined;
  readonly renews?: (replacement: string) => string | undefined;
}

/** What stands around the action. */
export interface Around {
  readonly uid: number;
  readonly words: string;
  /** A test run comes in this section, and a notice to stand clear stands before it. */
  readonly testAhead: boolean;
  readonly standClear: boolean;
  /** Things named as the place of the action. */
  readonly nearby?: readonly Thing[];
  readonly asked?: boolean;
  /** The procedure is declared a live task. */
  readonly live?: boolean;
}

/** 8: contact verbs. Looking, listening and a fixed gauge are none. */
const BY_HAND: readonly ActionKind[] = [
  ...(['open', 'close', 'renew', 'loosen', 'tighten', 'adjust', 'clean', 'apply', 'move', 'handle'] as const),
  ...(['measure', 'sense', 'prove', 'put-in', 'take-out'] as const),
];

export const isolatedIn = (naive: Naive, source: Source): boolean =>
  source.isolate.every(({ point }) => get(naive, `point ${point}`) === 'safe');

export function lockedIn(world: World, naive: Naive, source: Source, roles: readonly string[]): boolean {
  return source.isolate.every(({ point }) => {
    const own = world.machine.points.find(({ name }) => name === point);
    return !own?.lockable || own.plug || roles.some((role) => get(naive, `lock ${point} ${role}`) === 'yes');
  });
}

const safeAll = (naive: Naive, uses: Source['isolate']): boolean =>
  uses.length > 0 && uses.every(({ point }) => get(naive, `point ${point}`) === 'safe');

export const relievedIn = (naive: Naive, source: Source): boolean =>
  !source.stored || get(naive, `stored ${source.name}`) === 'gone' || safeAll(naive, source.relieve) || safeAll(naive, source.restrain);

const restIsSafe = (world: World, naive: Naive, source: Source): boolean =>
  lastIsEarth(world, source) ? safeToTest(world, naive, source) : safeToTest(world, naive, source) && relievedIn(naive, source);

const lastIsEarth = (world: World, source: Source): boolean =>
  world.earthLast === true && ['electrical', 'capacitor'].includes(source.kind) && source.relieve.length > 0;

const safeToTest = (world: World, naive: Naive, source: Source): boolean =>
  isolatedIn(naive, source) && lockedIn(world, naive, source, ['reader', ...world.roles]);

export function doNaive(world: World, before: Naive, done: Action, around: Around): { naive: Naive; slips: readonly Slip[] } {
  const naive = copyOf(before);
  const { machine } = world;
  const { uid } = around;
  // What this variant does not have is not touched.
  const absent = (kind: string, name: string): boolean => {
    const list = {
      cover: machine.covers,
      part: machine.parts,
      fastener: machine.fasteners,
      control: machine.controls,
      point: machine.points,
    }[kind];
    return list !== undefined && !list.some((one) => one.name === name);
  };
  // A replacement goes where the part was that it renews.
  const renewed = ({ kind, name }: Thing): Thing =>
    kind === 'replacement' ? { kind: 'part', name: world.renews?.(name) ?? name } : { kind, name };
  const fresh = done.things.some(({ thing }) => thing.kind === 'replacement');
  const things = done.things.map((use) => ({ ...use, thing: renewed(use.thing) }));
  const action: Action = { ...done, things: things.filter(({ thing }) => !absent(thing.kind, thing.name)) };
  const inHand = action.with.flatMap(({ thing }) => world.kindOf?.(thing.name) ?? []);
  const showsWith = (source: Source): boolean => source.provedWith.some((kind) => inHand.includes(kind));
  const slips: Slip[] = [];
  const role = action.role ?? 'reader';
  const set = (bit: string, value: string): void => put(naive, bit, value, uid);
  const slip = (rule: string, thing: string, wrong: readonly string[]): void => {
    slips.push({ rule, thing, cause: causeOf(naive, wrong) });
  };
  const named = (kind: string): string[] => action.things.flatMap(({ thing }) => (thing.kind === kind ? [thing.name] : []));
  const points = named('point');

  // ---- 8 and 9: rule H
  const unsafeFor = (source: Source): void => {
    const lockable = (point: string): boolean => machine.points.some((one) => one.name === point && one.lockable && !one.plug);
    if (!isolatedIn(naive, source)) {
      const open = source.isolate.filter(({ point }) => get(naive, `point ${point}`) !== 'safe');
      slip(
        'H-isolated',
        source.name,
        open.map(({ point }) => `point ${point}`),
      );
    } else if (!lockedIn(world, naive, source, [role])) {
      const open = source.isolate.filter(({ point }) => lockable(point) && get(naive, `lock ${point} ${role}`) !== 'yes');
      slip(
        'H-locked',
        source.name,
        open.map(({ point }) => `lock ${point} ${role}`),
      );
    } else if (!relievedIn(naive, source)) {
      const open = [...source.relieve, ...source.restrain].filter(({ point }) => get(naive, `point ${point}`) !== 'safe');
      slip('H-relieved', source.name, [`stored ${source.name}`, ...open.map(({ point }) => `point ${point}`)]);
    } else {
      const proof = get(naive, `proof ${source.name}`);
      if (proof === 'good' || source.tryOut.length + source.shownBy.length + source.provedWith.length === 0) return;
      // The hand that proves is the proof; the opening through which only a meter gets at it is judged at the next other hands-on.
      if (action.kind === 'prove' || (action.kind === 'measure' && showsWith(source))) return;
      const pending = source.tryOut.length + source.shownBy.length === 0 && action.kind === 'open' && named('cover').length > 0;
      if (pending) return;
      // Not tried again on a known source: it may be broken, and shows nothing.
      const rule = proof === 'metered' ? 'proof-empty' : proof === 'none' ? 'H-proved' : `proof-${proof}`;
      slip(rule, source.name, [`proof ${source.name}`]);
    }
    // 23: the bits are taken as right, and what was taken is owed by nobody.
    const off = source.isolate.filter(({ point }) => get(naive, `point ${point}`) !== 'safe').map(({ point }) => point);
    for (const { point } of source.isolate) {
      if (get(naive, `point ${point}`) !== 'safe') keep(naive, `taken point ${point}`, 'yes');
      if (get(naive, `lock ${point} ${role}`) !== 'yes') keep(naive, `taken lock ${point} ${role}`, 'yes');
      set(`point ${point}`, 'safe');
      set(`lock ${point} ${role}`, 'yes');
    }
    set(`stored ${source.name}`, 'gone');
    // A proof that came too early is taken as made in time, and wears; where there is none, it is taken as lasting.
    if (source.canComeBack && get(naive, `proof ${source.name}`) !== 'early') set(`watch ${source.name}`, 'yes');
    set(`proof ${source.name}`, 'good');
    // What the same point kept live is live for the same reason.
    for (const other of machine.sources) {
      const kept = other !== source && other.isolate.some(({ point }) => off.includes(point));
      if (!kept || !isolatedIn(naive, other) || !lockedIn(world, naive, other, [role])) continue;
      set(`stored ${other.name}`, 'gone');
      if (other.canComeBack && get(naive, `proof ${other.name}`) !== 'early') set(`watch ${other.name}`, 'yes');
      set(`proof ${other.name}`, 'good');
    }
  };
  const endangering = (): Source[] => {
    const names: string[] = [];
    const inZone = (zone: string | undefined): void => {
      const found = machine.zones.find(({ name }) => name === zone);
      names.push(...(found ? found.endangeredBy : machine.sources.map(({ name }) => name)));
    };
    for (const thing of [...action.things.map((use) => use.thing), ...(around.nearby ?? [])]) {
      if (thing.kind === 'cover') {
        const cover = machine.covers.find(({ name }) => name === thing.name);
        // A cover over a point of making safe has to come off first.
        const before = machine.points.some(({ behind }) => behind === thing.name);
        if (cover && !cover.openLive && !before && cover.zone !== undefined) inZone(cover.zone);
      } else if (thing.kind === 'zone') inZone(thing.name);
      else if (thing.kind === 'point' || thing.kind === 'gauge' || thing.kind === 'control') {
        const zone = [...machine.points, ...machine.gauges, ...machine.controls].find(({ name }) => name === thing.name)?.zone;
        if (zone !== undefined) inZone(zone);
      } else if (thing.kind === 'part') {
        const part = machine.parts.find(({ name }) => name === thing.name);
        if (part) inZone(part.zone);
        if (part?.holds !== undefined) names.push(part.holds);
      } else if (thing.kind === 'fastener') {
        const fastener = machine.fasteners.find(({ name }) => name === thing.name);
        const ofCover = machine.covers.some(({ name }) => name === fastener?.of);
        if (!fastener || (ofCover && fastener.zone === undefined)) continue;
        inZone(fastener.zone ?? machine.parts.find(({ name }) => name === fastener.of)?.zone);
        if (fastener.holds !== undefined) names.push(fastener.holds);
      } else if (thing.kind === 'measurement')
        for (const zone of machine.zones)
          if (zone.behind.some((cover) => get(naive, `cover ${cover}`) === 'open')) names.push(...zone.endangeredBy);
    }
    return [...new Set(names)].flatMap((name) => machine.sources.filter((source) => source.name === name));
  };
  /** 7: earthed, or being earthed: electrical energy cannot come back. EN 50110-1. */
  const earthed = (source: Source): boolean => {
    const lead = (name: string): boolean => world.kindOf?.(name) === 'earth lead';
    if (source.kind !== 'electrical' && source.kind !== 'capacitor') return false;
    return (
      (action.kind === 'put-in' && named('tool').some(lead)) ||
      world.temporary.some((name) => lead(name) && get(naive, `temporary ${name}`) === 'in')
    );
  };
  /** 7: a hand or a wait uses up the proof of what can come back, unless it is held or under a standing check. */
  const wear = (source: Source): void => {
    const heldBack = safeAll(naive, source.restrain) || get(naive, `watch ${source.name}`) === 'yes' || earthed(source);
    if (source.canComeBack && !heldBack && get(naive, `proof ${source.name}`) === 'good') set(`proof ${source.name}`, 'used');
  };
  const reaching = ['use', 'take-tools'].includes(action.kind) && (around.nearby ?? []).length > 0;
  if (!action.outside && (reaching || (action.contact && BY_HAND.includes(action.kind)))) {
    const dangers = endangering();
    // 11: a live task measures what is live.
    const live = around.live === true && ['measure', 'prove', 'sense'].includes(action.kind);
    if (!live) for (const source of dangers) unsafeFor(source);
    if (dangers.length > 0) {
      set('people', 'in');
      set('tools', 'in');
    }
    for (const source of dangers) wear(source);
  }

  // ---- 10: rule R
  const comesAlive = (source: Source | undefined, test: boolean): void => {
    const thing = source?.name ?? 'the machine';
    if (get(naive, 'people') !== 'clear') {
      slip('R-people', thing, ['people']);
      set('people', 'clear');
    }
    if (get(naive, 'tools') !== 'out') {
      slip('R-tools', thing, ['tools']);
      set('tools', 'out');
    }
    // 11: a test run relaxes covers only.
    for (const name of around.live ? [] : world.temporary)
      if (get(naive, `temporary ${name}`) === 'in') {
        slip('R-temporary', name, [`temporary ${name}`]);
        set(`temporary ${name}`, 'out');
      }
    const on = machine.controls.filter(
      ({ name, maintained, starts }) =>
        maintained && get(naive, `control ${name}`) === 'on' && (starts.length === 0 || starts.includes(source?.name ?? '')),
    );
    if (source && on.length > 0) {
      slip(
        'R-controls',
        thing,
        on.map(({ name }) => `control ${name}`),
      );
      for (const { name } of on) set(`control ${name}`, 'off');
    }
    if (!source && get(naive, 'told') !== 'yes') {
      slip('R-told', thing, ['told']);
      set('told', 'yes');
    }
    if ((around.testAhead || test) && around.standClear) return;
    const over = source ? machine.zones.filter(({ endangeredBy }) => endangeredBy.includes(source.name)) : undefined;
    for (const { name, zone, openLive } of machine.covers) {
      // What has to be off for somebody to get at a point cannot be on when the point is moved.
      const before = over !== undefined && machine.points.some(({ behind }) => behind === name);
      const concerned = !before && (over === undefined || over.some((one) => one.name === zone || one.behind.includes(name)));
      if (concerned && !openLive && get(naive, `cover ${name}`) === 'open') slip('R-covers', name, [`cover ${name}`]);
    }
  };

  // ---- 6: effects
  const unproved = (source: Source): void => {
    set(`proof ${source.name}`, 'none');
    set(`watch ${source.name}`, 'no');
  };
  const underLock = (to: 'safe' | 'off'): void => {
    for (const point of points) {
      if (machine.points.some(({ name, plug }) => name === point && plug)) continue;
      const on = ['reader', ...world.roles].filter((one) => get(naive, `lock ${point} ${one}`) === 'yes');
      if (get(naive, `point ${point}`) === to || on.length === 0) continue;
      const own = on.filter((one) => get(naive, `taken lock ${point} ${one}`) !== 'yes');
      if (own.length > 0)
        slip(
          'point-locked',
          point,
          own.map((one) => `lock ${point} ${one}`),
        );
      for (const one of on) {
        set(`lock ${point} ${one}`, 'no');
        keep(naive, `taken lock ${point} ${one}`, 'no');
      }
    }
  };
  const prove = (source: Source, value: Proofs): void => {
    if (get(naive, `proof ${source.name}`) !== 'good') set(`proof ${source.name}`, value);
  };
  const settle = (): void => {
    for (const source of machine.sources)
      if (isolatedIn(naive, source) && safeAll(naive, source.relieve)) set(`stored ${source.name}`, 'gone');
  };
  /** "Until the gauge shows 0": what the words wait for. */
  const shows = (source: Source, ways: readonly string[]): boolean =>
    ways.some((name) => (action.until?.text ?? '').toLowerCase().includes(name.toLowerCase())) && source.name !== '';
  let little = true;
  const inView = action.manner === 'in view' || /\bkeep\b.*\bin (?:view|sight)\b|\bwatch\b.*\bwhile\b/i.test(around.words);
  /** 12: a return test is done by being named. */
  const returnTests = (): void => {
    for (const thing of [...machine.parts, ...machine.covers, ...machine.fasteners])
      if (thing.returnTest !== undefined && around.words.includes(thing.returnTest)) set(`test ${thing.name}`, 'done');
  };
  const disturbed = (name: string): void => {
    if ([...machine.parts, ...machine.covers, ...machine.fasteners].some((one) => one.name === name && one.returnTest !== undefined))
      set(`test ${name}`, 'owed');
  };
  const knobs = (value: string): void => {
    for (const name of named('control')) if (machine.controls.find((one) => one.name === name)?.maintained) set(`control ${name}`, value);
  };
  /** 13: closing what was never open is a slip, unless the words depend on its state. */
  const unasked = !around.asked && !action.when.some(({ kind }) => kind === 'state' || kind === 'fact' || kind === 'unread');
  const startsSomething = (): boolean => {
    const starts = named('control').flatMap((name) => machine.controls.find((one) => one.name === name)?.starts ?? []);
    const sources = machine.sources.filter(({ name }) => starts.includes(name));
    return sources.length === 0 || sources.some((source) => !isolatedIn(naive, source));
  };
  // What a step does itself it owes itself.
  if (['isolate', 'restrain', 'relieve', 'restore', 'unrelieve', 'release'].includes(action.kind))
    for (const point of points) keep(naive, `taken point ${point}`, 'no');
  switch (action.kind) {
    case 'isolate':
    case 'restrain':
      underLock('safe');
      for (const point of points) set(`point ${point}`, 'safe');
      settle();
      for (const source of machine.sources)
        if (shows(source, source.shownBy)) prove(source, restIsSafe(world, naive, source) ? 'good' : 'early');
      break;
    case 'relieve':
      for (const source of machine.sources) {
        const earthing = source.relieve.some(({ point }) => points.includes(point) && get(naive, `point ${point}`) !== 'safe');
        if (!lastIsEarth(world, source) || !earthing || get(naive, `proof ${source.name}`) === 'good') continue;
        if (source.tryOut.length + source.shownBy.length + source.provedWith.length === 0) continue;
        slip('earth-untested', source.name, [`proof ${source.name}`]);
        set(`proof ${source.name}`, 'good');
        if (source.canComeBack) set(`watch ${source.name}`, 'yes');
      }
      for (const point of points) set(`point ${point}`, 'safe');
      for (const source of machine.sources)
        if (named('source').includes(source.name) && isolatedIn(naive, source)) set(`stored ${source.name}`, 'gone');
      settle();
      for (const source of machine.sources)
        if (shows(source, source.shownBy)) prove(source, restIsSafe(world, naive, source) ? 'good' : 'early');
      break;
    case 'make-energy': {
      const kinds = [...action.things, ...action.with].flatMap(({ thing }) => world.makes?.(thing.name) ?? []);
      const said = named('source');
      const made = machine.sources.filter(({ name, kind }) => (said.length > 0 ? said.includes(name) : kinds.includes(kind)));
      if (made.length > 0 && get(naive, 'people') !== 'clear') {
        slip('R-people', made[0]?.name ?? '', ['people']);
        set('people', 'clear');
      }
      for (const source of made) {
        set(`stored ${source.name}`, 'charged');
        unproved(source);
      }
      break;
    }
    case 'restore': {
      const back = machine.sources.filter(
        (source) => source.isolate.some(({ point }) => points.includes(point)) && isolatedIn(naive, source),
      );
      for (const source of back) comesAlive(source, false);
      underLock('off');
      for (const point of points) set(`point ${point}`, 'off');
      // A plug in its socket is in nobody's keeping.
      for (const { name, plug } of machine.points)
        if (plug && points.includes(name)) for (const one of ['reader', ...world.roles]) set(`lock ${name} ${one}`, 'no');
      for (const source of back) {
        set(`stored ${source.name}`, 'charged');
        unproved(source);
      }
      break;
    }
    case 'unrelieve':
      for (const point of points) set(`point ${point}`, 'off');
      for (const source of machine.sources)
        if (source.relieve.some(({ point }) => points.includes(point))) {
          // What nothing isolates is wound again by what let it go.
          const alone = source.isolate.length === 0;
          if (alone || !isolatedIn(naive, source)) set(`stored ${source.name}`, 'charged');
          if (alone || source.canComeBack) unproved(source);
        }
      break;
    case 'release':
      for (const source of machine.sources)
        if (source.restrain.some(({ point }) => points.includes(point))) {
          if (safeAll(naive, source.restrain)) comesAlive(source, false);
          unproved(source);
        }
      for (const point of points) set(`point ${point}`, 'off');
      break;
    case 'lock':
      for (const point of points) {
        set(`lock ${point} ${role}`, 'yes');
        keep(naive, `taken lock ${point} ${role}`, 'no');
      }
      // Cord and plug are outside the paragraph that asks for telling.
      if (points.some((point) => !machine.points.some(({ name, plug }) => name === point && plug))) set('told', 'no');
      break;
    case 'use':
      if (action.manner !== 'on a known source') break;
      set('meter', 'tried');
      for (const source of machine.sources)
        if (get(naive, `proof ${source.name}`) === 'metered')
          set(`proof ${source.name}`, restIsSafe(world, naive, source) ? 'good' : 'early');
      break;
    case 'unlock':
      for (const point of points) {
        // "Take off the locks": where there is none, none comes off.
        if (action.manner === 'wherever it is' && get(naive, `lock ${point} ${role}`) !== 'yes') continue;
        if (get(naive, `lock ${point} ${role}`) !== 'yes' && unasked) slip('close-unopened', point, [`lock ${point} ${role}`]);
        set(`lock ${point} ${role}`, 'no');
        keep(naive, `taken lock ${point} ${role}`, 'no');
        for (const source of machine.sources) if (source.isolate.some((use) => use.point === point)) unproved(source);
      }
      set('told', 'no');
      break;
    case 'try-out':
      for (const source of machine.sources) {
        if (!source.tryOut.some((name) => named('control').includes(name))) continue;
        const interlock = machine.covers.some(({ name, interlocked }) => interlocked && get(naive, `cover ${name}`) === 'open');
        const selector = machine.controls.some(
          ({ name, maintained, starts }) =>
            maintained && starts.includes(source.name) && !named('control').includes(name) && get(naive, `control ${name}`) === 'off',
        );
        prove(source, !restIsSafe(world, naive, source) ? 'early' : interlock || selector ? 'empty' : 'good');
      }
      break;
    case 'observe':
    case 'prove':
    case 'measure':
    case 'sense':
      for (const source of machine.sources) {
        const said = named('source');
        const metered = showsWith(source) && (said.length === 0 || said.includes(source.name));
        const byFigure = action.result ?? action.until?.text ?? action.amounts.find(({ text }) => !/(?:s|min|h)$/.test(text))?.text;
        const read = source.shownBy.some((name) => named('gauge').includes(name));
        // 7: a gauge in view keeps a proof and makes none.
        if (byFigure === undefined && inView && read) {
          set(`watch ${source.name}`, 'yes');
          continue;
        }
        // 6: what it must show is said, or the limits of the measurement say it; else nothing is shown.
        if (byFigure === undefined && !(metered && action.kind === 'measure' && named('measurement').length > 0)) continue;
        // A figure that is not nought says that something is there still; "less than 5 V" says how little.
        const figure = /\d/.test(action.result ?? '') && !/(?:^|\s)0(?![.\d])/.test(action.result ?? '');
        if (figure && !(metered && /less than|below|under|or less|at most/i.test(action.result ?? ''))) continue;
        if (!metered && !source.shownBy.some((name) => named('gauge').includes(name))) continue;
        const good = restIsSafe(world, naive, source);
        // 6: a meter proves when it was tried before and is tried after on a known source.
        const byGauge = source.shownBy.some((name) => named('gauge').includes(name));
        const trying = !byGauge && ['electrical', 'capacitor'].includes(source.kind);
        const shown = !trying ? 'good' : get(naive, 'meter') === 'tried' ? 'metered' : 'empty';
        prove(source, good ? shown : 'early');
        if (inView && (good || get(naive, `proof ${source.name}`) === 'early')) set(`watch ${source.name}`, 'yes');
      }
      returnTests();
      for (const name of named('measurement')) set(`outcome ${name}`, 'fresh');
      break;
    case 'control':
      for (const name of named('control')) {
        const control = machine.controls.find((one) => one.name === name);
        const off = [control?.off, 'off', '0', 'neutral', 'stop'].includes(action.position ?? '-');
        if (control?.maintained) set(`control ${name}`, off ? 'off' : 'on');
      }
      break;
    case 'shut-down':
      knobs('off');
      break;
    case 'start':
    case 'test-run':
      knobs('on');
      if (startsSomething()) comesAlive(undefined, action.kind === 'test-run');
      if (action.kind === 'test-run') returnTests();
      break;
    case 'renew':
      for (const { thing } of action.things)
        if (thing.kind === 'part' || thing.kind === 'fastener') {
          set(`${thing.kind} ${thing.name}`, 'done');
          disturbed(thing.name);
        }
      break;
    case 'open':
    case 'loosen':
      for (const { thing } of action.things) {
        if (thing.kind === 'fastener') set(`fastener ${thing.name}`, 'loose');
        else if (action.kind === 'open') {
          set(`${thing.kind} ${thing.name}`, thing.kind === 'cover' ? 'open' : 'out');
          for (const { name, of, torque } of machine.fasteners)
            if (of === thing.name && torque !== undefined) set(`fastener ${name}`, 'loose');
        }
        disturbed(thing.name);
      }
      break;
    case 'close':
      for (const { thing } of action.things) {
        const bit = `${thing.kind} ${thing.name}`;
        if (thing.kind === 'fastener') {
          // Put in by hand; what has a torque is still to be tightened.
          const torque = machine.fasteners.find(({ name }) => name === thing.name)?.torque;
          set(bit, torque === undefined ? 'done' : 'hand');
        }
        if (thing.kind !== 'cover' && thing.kind !== 'part') continue;
        const own = machine.fasteners.filter(({ of }) => of === thing.name);
        const open = ['open', 'given', 'out'].includes(get(naive, bit));
        const loosePart = thing.kind === 'part' && own.some(({ name }) => get(naive, `fastener ${name}`) === 'loose');
        if (!open && !loosePart && unasked && !fresh) slip('close-unopened', thing.name, [bit]);
        set(bit, 'done');
        for (const { name, torque } of own) if (torque === undefined) set(`fastener ${name}`, 'done');
      }
      break;
    case 'tighten':
      for (const name of named('fastener')) {
        const of = machine.fasteners.find((one) => one.name === name)?.of;
        const touched = ['cover', 'part'].some((kind) => of !== undefined && get(naive, `${kind} ${of}`) !== 'found');
        if (get(naive, `fastener ${name}`) === 'found' && !touched && unasked) slip('close-unopened', name, [`fastener ${name}`]);
        set(`fastener ${name}`, action.stage === 'hand' || action.stage === 'first' ? 'hand' : 'done');
      }
      break;
    case 'put-in':
    case 'take-out':
      for (const name of named('tool'))
        if (world.temporary.includes(name)) set(`temporary ${name}`, action.kind === 'put-in' ? 'in' : 'out');
      break;
    case 'tell':
      set('told', 'yes');
      break;
    case 'clear-people':
      set('people', 'clear');
      break;
    case 'take-tools':
      set('tools', 'out');
      break;
    case 'out-of-service':
      set('declared', 'yes');
      break;
    case 'wait':
      // Waited until a gauge shows 180 °C, it is there still.
      little =
        !/\d/.test(action.until?.text ?? '') || /(?:^|\s)0(?![.\d])|less than|below|under|or less|at most/i.test(action.until?.text ?? '');
      for (const source of machine.sources) {
        const needed = secondsIn(source.settles);
        const waited = action.amounts.map(({ text }) => secondsIn(text)).find((one) => one !== undefined);
        const over =
          waited === undefined ? little && shows(source, [source.name, ...source.shownBy, ...source.provedWith]) : waited >= (needed ?? 0);
        if (needed !== undefined && over && isolatedIn(naive, source)) set(`stored ${source.name}`, 'gone');
        wear(source);
      }
      for (const source of machine.sources) if (shows(source, source.shownBy) && restIsSafe(world, naive, source)) prove(source, 'good');
      break;
    default:
      break;
  }
  return { naive, slips };
}

type Proofs = 'early' | 'empty' | 'metered' | 'good';

/** "90 min", "5 minutes", "30 s". */
function secondsIn(text: string | undefined): number | undefined {
  const [, number, unit] = /([\d.]+)\s*(s|min|h)/.exec(text ?? '') ?? [];
  return number === undefined ? undefined : Number(number) * ({ s: 1, min: 60, h: 3600 }[unit as string] as number);
}
