/**
 * What each kind of action does to the state, and the rules that are asked when it is done: H before hands-on, R before energy
 * comes back. One function a kind. After a violation the bits are taken as right, so that one cause is one violation.
 * Long because an effect a kind is one table; rules H and R are asked where the effect is.
 */
import {
  type Action,
  type ActionKind,
  HANDS_AT_WORK,
  KNOWN_SOURCE,
  showsGone,
  showsLittle,
  type ThingUse,
  WHEREVER,
} from '../reading/index.ts';
import type { EnergyKind } from '../registers/index.ts';
import type { ActFacts } from './code.ts';
import { longEnough, type SourceRow, secondsWaited } from './machine.ts';
import type { Rule } from './model.ts';
import { electrical, held, isolated, locked, proved, readyToProve, relieved, safeButProof } from './safety.ts';
import { COVER, FASTENER, type Layout, PART, POINT, PROOF, STORED, type State, TAKEN } from './state.ts';

/** A rule broken here: `bits` are the places of the state that should have been otherwise. */
export interface Breach {
  readonly rule: Rule;
  readonly thing: string;
  readonly zone?: string;
  readonly missing: readonly string[];
  readonly bits: readonly number[];
  /** Which of the bits' values count: the locks of one role. Left out, all. */
  readonly mask?: number;
  /** Every point that is missing carries a lock, but of somebody else: 29 CFR 1910.147(f)(3)(ii)(D), each puts on their own. */
  readonly others?: true;
  readonly severity: 'error' | 'warning';
}

export interface Done {
  readonly state: State;
  readonly breaches: readonly Breach[];
}

/** Kinds of procedure facts an effect may need. */
export interface Doing {
  readonly action: Action;
  readonly facts: ActFacts;
  readonly liveTask: boolean;
  readonly temporary: (tool: string) => boolean;
  readonly toolKind: (tool: string) => string | undefined;
  /** What kind of energy a tool makes: a jack, a hoist, a hand pump. */
  readonly makes: (tool: string) => EnergyKind | undefined;
  /** The part a replacement renews. */
  readonly renews: (replacement: string) => string | undefined;
  readonly quantityOf: (measurement: string) => string;
}

/** Whether a hand goes to what the sentence names. A machine that is moved from its panel names things too, and nobody touches them. */
export function handsIn({ action, facts }: Pick<Doing, 'action' | 'facts'>): boolean {
  const reaching = (action.kind === 'use' || action.kind === 'take-tools') && facts.nearby.length > 0;
  return !action.outside && (reaching || (action.contact && CONTACT.includes(action.kind)));
}

export function act(layout: Layout, before: State, doing: Doing): Done {
  return new Effect(layout, before, doing).run();
}

const CONTACT: readonly ActionKind[] = [...HANDS_AT_WORK, 'measure', 'sense', 'prove', 'put-in', 'take-out'];

class Effect {
  private readonly layout: Layout;
  private readonly state: State;
  private readonly doing: Doing;
  private readonly breaches: Breach[] = [];
  private readonly role: number;

  constructor(layout: Layout, before: State, doing: Doing) {
    this.layout = layout;
    this.state = before.slice();
    this.doing = doing;
    const at = doing.action.role === undefined ? 0 : layout.roles.indexOf(doing.action.role) + 1;
    this.role = 1 << Math.max(0, Math.min(at, 6));
  }

  run(): Done {
    if (handsIn(this.doing)) this.handsOn();
    this.effect();
    return { state: this.state, breaches: this.breaches };
  }

  private breach(
    rule: Rule,
    thing: string,
    missing: readonly string[],
    bits: readonly number[],
    zone?: string,
    severity: Breach['severity'] = 'error',
    mask?: number,
    others = false,
  ): void {
    this.breaches.push({
      rule,
      thing,
      missing,
      bits,
      severity,
      ...(zone === undefined || zone === '' ? {} : { zone }),
      ...(mask === undefined ? {} : { mask }),
      ...(others ? { others } : {}),
    });
  }

  private things(kind: string): readonly ThingUse[] {
    return this.doing.action.things.filter((use) => use.thing.kind === kind);
  }

  // ---------------------------------------------------------------- rule H

  private handsOn(): void {
    const { action } = this.doing;
    const dangers = new Map<SourceRow, string>();
    for (const thing of [...action.things.map((use) => use.thing), ...this.doing.facts.nearby]) {
      const name = thing.kind === 'replacement' ? (this.doing.renews(thing.name) ?? thing.name) : thing.name;
      const kind = thing.kind === 'replacement' ? 'part' : thing.kind;
      const danger = thing.kind === 'measurement' ? undefined : this.layout.table.dangerTo(kind, name);
      for (const row of danger?.sources ?? []) if (!dangers.has(row)) dangers.set(row, danger?.zone ?? '');
      if (thing.kind === 'measurement') for (const { row, zone } of this.exposed()) if (!dangers.has(row)) dangers.set(row, zone);
    }
    if (dangers.size === 0) return;
    for (const [row, zone] of dangers) this.askSafe(row, zone);
    this.state[this.layout.people] = 0;
    this.state[this.layout.tools] = 0;
    for (const [row] of dangers) this.wearProof(row);
  }

  /** Zones with a cover off: where a hand goes that measures something whose place is not named. */
  private exposed(): { row: SourceRow; zone: string }[] {
    const { table } = this.layout;
    return table.machine.zones
      .filter((zone) => zone.behind.some((cover) => this.state[this.layout.cover + (table.covers.get(cover) ?? 255)] === COVER.open))
      .flatMap((zone) => zone.endangeredBy.flatMap((name) => table.sourceOf.get(name) ?? []).map((row) => ({ row, zone: zone.name })));
  }

  private askSafe(row: SourceRow, zone: string): void {
    const { layout, state, doing } = this;
    const { source } = row;
    const { action } = doing;
    const names = (points: readonly number[]): string[] => points.map((point) => layout.table.pointNames[point] as string);
    if (doing.liveTask && (action.kind === 'measure' || action.kind === 'prove' || action.kind === 'sense')) return;
    if (!isolated(layout, state, row)) {
      const open = row.isolate.filter((point) => state[layout.point + point] !== POINT.safe);
      this.breach(
        'H-isolated',
        source.name,
        names(open),
        open.map((point) => layout.point + point),
        zone,
      );
      this.makeSafe(row);
      return;
    }
    if (!locked(layout, state, row, this.role)) {
      const open = row.isolate.filter(
        (point) => layout.table.machine.points[point]?.lockable && ((state[layout.lock + point] ?? 0) & this.role) === 0,
      );
      this.breach(
        'H-locked',
        source.name,
        names(open),
        open.map((point) => layout.lock + point),
        zone,
        'error',
        this.role,
        open.every((point) => (state[layout.lock + point] ?? 0) !== 0),
      );
      this.makeSafe(row);
      return;
    }
    if (!relieved(layout, state, row)) {
      const ways = [...names(row.relieve), ...names(row.restrain)];
      const missing = ways.length > 0 ? [ways.join(' or ')] : [`a wait of ${source.settles ?? 'its time'}`];
      this.breach(
        'H-relieved',
        source.name,
        missing,
        [
          layout.stored + row.index,
          ...[...row.relieve, ...row.restrain].map((point) => layout.point + point).filter((bit) => state[bit] !== POINT.safe),
        ],
        zone,
      );
      this.makeSafe(row);
      return;
    }
    // Measuring with the meter that proves it is the proof.
    const meter = action.with.some((use) => row.source.provedWith.includes(this.doing.toolKind(use.thing.name) ?? ''));
    if (proved(layout, state, row) || action.kind === 'prove' || (action.kind === 'measure' && meter)) return;
    // The opening through which a meter gets at it is judged at the next other hands-on.
    if (row.meterOnly && action.kind === 'open' && this.things('cover').length > 0) return;
    const proof = state[layout.proof + row.index];
    const rule =
      proof === PROOF.early
        ? 'proof-early'
        : proof === PROOF.used
          ? 'proof-used'
          : proof === PROOF.empty || proof === PROOF.metered
            ? 'proof-empty'
            : 'H-proved';
    this.breach(rule, source.name, waysToProve(row), [layout.proof + row.index], zone);
    this.makeSafe(row);
  }

  private makeSafe(row: SourceRow): void {
    const { layout, state } = this;
    const off = row.isolate.filter((point) => state[layout.point + point] !== POINT.safe);
    for (const point of row.isolate) {
      // What no step did is owed by none: the end does not ask for it back.
      const taken = (state[layout.point + point] === POINT.safe ? 0 : TAKEN) | (this.role & ~(state[layout.lock + point] ?? 0));
      state[layout.taken + point] = (state[layout.taken + point] ?? 0) | taken;
      state[layout.point + point] = POINT.safe;
      state[layout.lock + point] = (state[layout.lock + point] ?? 0) | this.role;
    }
    state[layout.stored + row.index] = STORED.gone;
    state[layout.proof + row.index] = this.provedAsRight(row);
    // The same point may have kept another live, or spoilt its proof; that is this slip again, not another.
    for (const other of layout.table.sources) {
      const kept = other !== row && other.isolate.some((point) => off.includes(point));
      if (kept && isolated(layout, state, other) && locked(layout, state, other, this.role)) {
        state[layout.stored + other.index] = STORED.gone;
        state[layout.proof + other.index] = this.provedAsRight(other);
        continue;
      }
      const proof = state[layout.proof + other.index];
      const shares = other !== row && other.isolate.some((point) => row.isolate.includes(point));
      if (shares && (proof === PROOF.none || proof === PROOF.early) && safeButProof(layout, state, other))
        state[layout.proof + other.index] = this.provedAsRight(other);
    }
  }

  /** A proof that was only too early counts, and wears as it would have; one that is not there at all is taken as lasting. */
  private provedAsRight(row: SourceRow): number {
    if (!row.source.canComeBack) return PROOF.good;
    const { layout, state } = this;
    const wears = state[layout.proof + row.index] === PROOF.early && state[layout.inView + row.index] === 0;
    return wears ? PROOF.good : PROOF.watched;
  }

  /** A source that can come back: the first hands-on or pause uses its proof up. semantics.md 7. */
  private wearProof(row: SourceRow): void {
    const at = this.layout.proof + row.index;
    if (this.earthed(row)) return;
    const good = this.state[at] === PROOF.good || this.state[at] === PROOF.bared;
    if (row.source.canComeBack && good && !held(this.layout, this.state, row)) this.state[at] = PROOF.used;
  }

  /** Earthed and short-circuited: electrical energy cannot come back. EN 50110-1 five rules. */
  private earthed(row: SourceRow): boolean {
    if (!electrical(row)) return false;
    // The hand that clamps the earth lead on is the last that the proof serves.
    const clamping =
      this.doing.action.kind === 'put-in' && this.things('tool').some((use) => this.doing.toolKind(use.thing.name) === 'earth lead');
    if (clamping) return true;
    return this.layout.temporaries.some(
      (name, index) => this.doing.toolKind(name) === 'earth lead' && this.state[this.layout.temporary + index] === 1,
    );
  }

  // ---------------------------------------------------------------- effects

  private effect(): void {
    const { layout, state } = this;
    const { action } = this.doing;
    switch (action.kind) {
      case 'isolate':
      case 'restrain':
        this.movesLocked(POINT.safe);
        for (const point of this.points()) this.place(point, POINT.safe);
        this.settle();
        if (action.until !== undefined) this.readGauges(action.until.text);
        return;
      case 'relieve':
        if (layout.earthLast) this.askTested();
        for (const point of this.points()) this.place(point, POINT.safe);
        for (const { thing } of this.things('source')) {
          const row = layout.table.sourceOf.get(thing.name);
          if (row && isolated(layout, state, row)) state[layout.stored + row.index] = STORED.gone;
        }
        this.settle();
        if (action.until !== undefined) this.readGauges(action.until.text);
        return;
      case 'restore':
        return this.restore();
      case 'unrelieve':
        for (const point of this.points()) {
          this.place(point, POINT.off);
          for (const row of layout.table.sources) {
            if (!row.relieve.includes(point)) continue;
            if (!isolated(layout, state, row)) state[layout.stored + row.index] = STORED.charged;
            if (row.source.canComeBack) this.unprove(row);
          }
        }
        return;
      case 'release':
        return this.release();
      case 'lock':
        for (const point of this.points()) {
          state[layout.lock + point] = (state[layout.lock + point] ?? 0) | this.role;
          state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~this.role;
        }
        // Keeping a plug in view tells nobody's machine off: 1910.147(a)(2)(iii)(A).
        if (this.points().some((point) => !layout.table.machine.points[point]?.plug)) state[layout.told] = 0;
        return;
      case 'unlock':
        for (const point of this.points()) {
          if (action.manner === WHEREVER && ((state[layout.lock + point] ?? 0) & this.role) === 0) continue;
          // Taking off a lock that nobody put on: either it was forgotten, or the wrong one comes off.
          if (((state[layout.lock + point] ?? 0) & this.role) === 0 && !this.asksState())
            this.breach(
              'close-unopened',
              layout.table.pointNames[point] as string,
              ['lock'],
              [layout.lock + point],
              undefined,
              'warning',
              this.role,
            );
          state[layout.lock + point] = (state[layout.lock + point] ?? 0) & ~this.role;
          state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~this.role;
          for (const row of layout.table.sources) if (row.isolate.includes(point)) this.unprove(row);
        }
        // People are told once the locks are off, 1910.147(e)(2)(ii): what was said before does not count.
        state[layout.told] = 0;
        return;
      case 'try-out':
        return this.tryOut();
      case 'prove':
      case 'observe':
      case 'measure':
      case 'sense':
        this.readProof();
        this.returnTest();
        this.measured();
        return;
      case 'control':
        for (const { thing } of this.things('control')) {
          const control = layout.table.machine.controls[layout.table.controls.get(thing.name) ?? -1];
          const at = layout.table.controls.get(thing.name);
          if (!control?.maintained || at === undefined) continue;
          const off =
            action.position !== undefined &&
            (action.position === control.off || ['off', '0', 'neutral', 'stop'].includes(action.position.toLowerCase()));
          state[layout.control + at] = off ? 0 : 1;
        }
        return;
      case 'shut-down':
        this.select(0);
        return;
      case 'start':
      case 'test-run':
        this.select(1);
        if (!this.startsDead()) this.askBeforeLive(undefined, action.kind === 'test-run');
        if (action.kind === 'test-run') this.returnTest();
        return;
      case 'make-energy':
        return this.makeEnergy();
      case 'open':
        return this.open();
      case 'close':
        return this.close();
      case 'renew':
        for (const { thing } of [...this.things('part'), ...this.things('fastener')]) {
          this.set(thing.kind === 'part' ? 'part' : 'fastener', thing.name, thing.kind === 'part' ? PART.done : FASTENER.done);
          this.disturbed(thing.name);
        }
        return;
      case 'loosen':
        for (const { thing } of this.things('fastener')) {
          this.set('fastener', thing.name, FASTENER.loose);
          this.disturbed(thing.name);
        }
        for (const { thing } of this.things('part')) this.disturbed(thing.name);
        return;
      case 'tighten':
        return this.tighten();
      case 'put-in':
        for (const { thing } of this.things('tool')) this.temporary(thing.name, 1);
        return;
      case 'take-out':
        for (const { thing } of this.things('tool')) this.temporary(thing.name, 0);
        return;
      case 'tell':
        state[layout.told] = 1;
        return;
      case 'out-of-service':
        state[layout.declared] = 1;
        return;
      case 'clear-people':
        state[layout.people] = 1;
        return;
      case 'take-tools':
        state[layout.tools] = 1;
        return;
      case 'use':
        if (action.manner === KNOWN_SOURCE) this.tried();
        return;
      case 'wait':
        return this.wait();
      default:
        return;
    }
  }

  private points(): number[] {
    return this.things('point').flatMap((use) => this.layout.table.points.get(use.thing.name) ?? []);
  }

  /** A point with a lock on it does not move: the lock is too early, or comes off too late. */
  private movesLocked(to: number): void {
    const { layout, state } = this;
    for (const point of this.points()) {
      const own = layout.table.machine.points[point];
      if (own?.plug || state[layout.point + point] === to || (state[layout.lock + point] ?? 0) === 0) continue;
      const on = (state[layout.lock + point] ?? 0) & ~(state[layout.taken + point] ?? 0);
      if (on !== 0)
        this.breach('point-locked', layout.table.pointNames[point] as string, [], [layout.lock + point], undefined, 'error', on);
      state[layout.lock + point] = 0;
      state[layout.taken + point] = (state[layout.taken + point] ?? 0) & TAKEN;
    }
  }

  /** What is earthed must have been tested dead, where the library asks for that order. */
  private askTested(): void {
    const { layout, state } = this;
    for (const row of layout.table.sources) {
      const earthing = row.relieve.filter((point) => this.points().includes(point) && state[layout.point + point] !== POINT.safe);
      if (!electrical(row) || earthing.length === 0 || !row.provable || proved(layout, state, row)) continue;
      const at = layout.proof + row.index;
      this.breach('earth-untested', row.source.name, waysToProve(row), [at]);
      state[at] = row.source.canComeBack ? PROOF.watched : PROOF.good;
    }
  }

  private place(point: number, to: number): void {
    const { layout, state } = this;
    state[layout.point + point] = to;
    state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~TAKEN;
  }

  /** Relief that is open once the supply is cut empties the source for good. */
  private settle(): void {
    const { layout, state } = this;
    for (const row of layout.table.sources)
      if (
        row.relieve.length > 0 &&
        isolated(layout, state, row) &&
        row.relieve.every((point) => state[layout.point + point] === POINT.safe)
      )
        state[layout.stored + row.index] = STORED.gone;
  }

  private restore(): void {
    const { layout, state } = this;
    const points = this.points();
    const live = layout.table.sources.filter((row) => row.isolate.some((point) => points.includes(point)) && isolated(layout, state, row));
    for (const row of live) this.askBeforeLive(row, false);
    this.movesLocked(POINT.off);
    for (const point of points) {
      this.place(point, POINT.off);
      // A plug that is in its socket is in nobody's keeping.
      if (layout.table.machine.points[point]?.plug) state[layout.lock + point] = 0;
    }
    for (const row of live) {
      state[layout.stored + row.index] = STORED.charged;
      this.unprove(row);
    }
  }

  /** What was let out is there again, and was not proved gone since. People have to be clear of it as of any energy that comes back. */
  private makeEnergy(): void {
    const { layout, state } = this;
    const { action } = this.doing;
    const kinds = [...action.things, ...action.with].flatMap((use) => this.doing.makes(use.thing.name) ?? []);
    const named = new Set(this.things('source').map((use) => use.thing.name));
    const rows = layout.table.sources.filter((row) => named.has(row.source.name) || (named.size === 0 && kinds.includes(row.source.kind)));
    if (rows.length > 0 && state[layout.people] === 0) {
      this.breach('R-people', rows[0]?.source.name as string, [], [layout.people]);
      state[layout.people] = 1;
    }
    for (const row of rows) {
      state[layout.stored + row.index] = STORED.charged;
      this.unprove(row);
    }
  }

  private release(): void {
    const { layout, state } = this;
    const points = this.points();
    for (const row of layout.table.sources) {
      if (!row.restrain.some((point) => points.includes(point))) continue;
      if (held(layout, state, row)) this.askBeforeLive(row, false);
      this.unprove(row);
    }
    for (const point of points) this.place(point, POINT.off);
  }

  /** Rule R. Without a row: the machine is started. */
  private askBeforeLive(row: SourceRow | undefined, test: boolean): void {
    const { layout, state } = this;
    const { facts } = this.doing;
    const thing = row?.source.name ?? 'the machine';
    if (state[layout.people] === 0) {
      this.breach('R-people', thing, [], [layout.people]);
      state[layout.people] = 1;
    }
    if (state[layout.tools] === 0) {
      this.breach('R-tools', thing, [], [layout.tools]);
      state[layout.tools] = 1;
    }
    for (const [index, name] of layout.temporaries.entries()) {
      if (state[layout.temporary + index] !== 1 || this.doing.liveTask) continue;
      this.breach('R-temporary', name, [name], [layout.temporary + index]);
      state[layout.temporary + index] = 0;
    }
    const on = layout.table.machine.controls.flatMap((control, index) =>
      control.maintained &&
      state[layout.control + index] === 1 &&
      (!row || control.starts.length === 0 || control.starts.includes(row.source.name))
        ? [index]
        : [],
    );
    if (row && on.length > 0) {
      this.breach(
        'R-controls',
        thing,
        on.map((index) => layout.table.controlNames[index] as string),
        on.map((index) => layout.control + index),
      );
      for (const index of on) state[layout.control + index] = 0;
    }
    if (!row && state[layout.told] === 0) {
      this.breach('R-told', thing, [], [layout.told], undefined, 'warning');
      state[layout.told] = 1;
    }
    const covers = (row ? layout.table.coversOver(row) : layout.table.machine.covers.map((_, index) => index)).filter(
      (index) => state[layout.cover + index] === COVER.open && !layout.table.machine.covers[index]?.openLive,
    );
    const guarded = (facts.testAhead || test) && facts.standClear;
    // The cover is what is wrong, whichever source comes back first; it is still owed at the end.
    if (!guarded)
      for (const index of covers) this.breach('R-covers', layout.table.coverNames[index] as string, [thing], [layout.cover + index]);
  }

  /** A control that stays where it is put. */
  private select(value: number): void {
    const { layout, state } = this;
    for (const { thing } of this.things('control')) {
      const at = layout.table.controls.get(thing.name);
      if (at !== undefined && layout.table.machine.controls[at]?.maintained) state[layout.control + at] = value;
    }
  }

  /** The control starts only sources that are cut off: nothing comes to life. */
  private startsDead(): boolean {
    const { layout, state } = this;
    const names = this.things('control').flatMap(
      (use) => layout.table.machine.controls[layout.table.controls.get(use.thing.name) ?? -1]?.starts ?? [],
    );
    const rows = names.flatMap((name) => layout.table.sourceOf.get(name) ?? []);
    return rows.length > 0 && rows.every((row) => row.isolate.length > 0 && isolated(layout, state, row));
  }

  private tryOut(): void {
    const { layout, state } = this;
    const names = new Set(this.things('control').map((use) => use.thing.name));
    const interlocked = layout.table.machine.covers.some((cover, index) => cover.interlocked && state[layout.cover + index] === COVER.open);
    for (const row of layout.table.sources) {
      if (!row.source.tryOut.some((name) => names.has(name))) continue;
      const value = !readyToProve(layout, state, row)
        ? PROOF.early
        : interlocked || this.selectedOff(row, names)
          ? PROOF.empty
          : PROOF.good;
      this.prove(row, value);
    }
  }

  /** A selector that would have to be on for anything to move stands at off: the try-out shows nothing. */
  private selectedOff(row: SourceRow, tried: ReadonlySet<string>): boolean {
    const { layout, state } = this;
    return layout.table.machine.controls.some(
      (control, index) =>
        control.maintained && control.starts.includes(row.source.name) && !tried.has(control.name) && state[layout.control + index] === 0,
    );
  }

  private prove(row: SourceRow, value: number): void {
    const at = this.layout.proof + row.index;
    // A good proof is not undone by a second, weaker one, nor a standing check by reading once more.
    if (this.state[at] === PROOF.watched || (this.state[at] === PROOF.good && value !== PROOF.watched)) return;
    if (this.state[at] === PROOF.bared && value !== PROOF.good && value !== PROOF.watched) return;
    // What was put in view early stays in view.
    this.state[at] = value === PROOF.good && this.state[this.layout.inView + row.index] === 1 ? PROOF.watched : value;
  }

  private unprove(row: SourceRow): void {
    this.state[this.layout.proof + row.index] = PROOF.none;
    this.state[this.layout.inView + row.index] = 0;
  }

  private readProof(): void {
    const { action, facts } = this.doing;
    const { layout, state } = this;
    const gauges = new Set(action.things.filter((use) => use.thing.kind === 'gauge').map((use) => use.thing.name));
    const kinds = new Set(action.with.map((use) => this.doing.toolKind(use.thing.name)));
    const named = new Set(this.things('source').map((use) => use.thing.name));
    const gone = action.result === undefined || showsGone(action.result);
    const watched = action.manner === 'in view' || /\bkeep\b.*\bin (?:view|sight)\b|\bwatch\b.*\bwhile\b/i.test(facts.words);
    for (const row of layout.table.sources) {
      // What must show something else than nothing proves nothing: "it must show 2 bar"; "below 5 V", "40 °C or less" say how little.
      const byGauge = gone && row.source.shownBy.some((name) => gauges.has(name));
      if (!gone && !showsLittle(action.result ?? '')) continue;
      const byMeter = row.source.provedWith.some((kind) => kinds.has(kind)) && (named.size === 0 || named.has(row.source.name));
      if (!byGauge && !byMeter) continue;
      // A meter that shows no volts may be broken: it is tried where it must show some, before and after. semantics.md 6.
      const shown = byGauge || !electrical(row) ? PROOF.good : state[layout.meter] === 1 ? PROOF.metered : PROOF.empty;
      const ready = readyToProve(layout, state, row);
      this.prove(row, !ready ? PROOF.early : watched && shown === PROOF.good ? PROOF.watched : shown);
      if (!ready && watched && state[layout.proof + row.index] === PROOF.early) state[layout.inView + row.index] = 1;
    }
  }

  /** The meter shows what is there, so what it showed just now counts, and what it shows next may. */
  private tried(): void {
    const { layout, state } = this;
    state[layout.meter] = 1;
    for (const row of layout.table.sources)
      if (state[layout.proof + row.index] === PROOF.metered)
        state[layout.proof + row.index] = readyToProve(layout, state, row) ? PROOF.good : PROOF.early;
  }

  /** "until the gauge shows 0 bar": the gauge was read. */
  private readGauges(words: string, early = true): void {
    const { layout, state } = this;
    // "Until the gauge shows 2 bar": it is not gone.
    if (!showsGone(words)) return;
    const lower = words.toLowerCase();
    for (const row of layout.table.sources) {
      if (!row.source.shownBy.some((name) => lower.includes(name.toLowerCase()))) continue;
      const ready = readyToProve(layout, state, row);
      if (ready || early) this.prove(row, ready ? PROOF.good : PROOF.early);
    }
  }

  private measured(): void {
    const { layout, state } = this;
    for (const name of measuredBy(this.doing.action)) {
      const at = layout.outcomes.indexOf(name);
      if (at >= 0) state[layout.outcome + at] = ALL_OUTCOMES;
    }
  }

  /** Named by the sentence or by what it measures; a heading must name the whole test, for much is done under "Test the interlock". */
  private returnTest(): void {
    const { layout, state } = this;
    const { action, facts } = this.doing;
    const said =
      `${facts.words} ${action.things.map((use) => `${use.thing.name} ${use.thing.kind === 'measurement' ? this.doing.quantityOf(use.thing.name) : ''}`).join(' ')}`.toLowerCase();
    for (const [index, name] of layout.tests.entries()) {
      const test = (layout.table.returnTests.get(name) ?? '').toLowerCase();
      const word = test.replace(/\s+test$/, '');
      if (said.includes(word) || facts.heading.toLowerCase().includes(test)) state[layout.test + index] = 0;
    }
  }

  private disturbed(name: string): void {
    const at = this.layout.tests.indexOf(name);
    if (at >= 0) this.state[this.layout.test + at] = 1;
  }

  private set(kind: 'cover' | 'part' | 'fastener', name: string, value: number): void {
    const { layout } = this;
    const at = layout.table[kind === 'cover' ? 'covers' : kind === 'part' ? 'parts' : 'fasteners'].get(name);
    if (at !== undefined) this.state[layout[kind] + at] = value;
  }

  private get(kind: 'cover' | 'part' | 'fastener', name: string): number | undefined {
    const { layout } = this;
    const at = layout.table[kind === 'cover' ? 'covers' : kind === 'part' ? 'parts' : 'fasteners'].get(name);
    return at === undefined ? undefined : this.state[layout[kind] + at];
  }

  private open(): void {
    for (const { thing } of this.things('cover')) {
      this.set('cover', thing.name, COVER.open);
      this.disturbed(thing.name);
      this.looseOf(thing.name);
    }
    for (const { thing } of this.things('part')) {
      this.set('part', thing.name, PART.out);
      this.disturbed(thing.name);
      this.looseOf(thing.name);
    }
    for (const { thing } of this.things('fastener')) {
      this.set('fastener', thing.name, FASTENER.loose);
      this.disturbed(thing.name);
    }
  }

  /** Taking a thing off undoes its fasteners; those without a torque travel with it. */
  private looseOf(name: string): void {
    const { layout, state } = this;
    for (const index of layout.table.fastenersOf(name))
      if (layout.table.machine.fasteners[index]?.torque !== undefined && state[layout.fastener + index] !== FASTENER.loose)
        state[layout.fastener + index] = FASTENER.loose;
  }

  private close(): void {
    const { layout, state } = this;
    for (const { thing } of this.doing.action.things) {
      const name = thing.kind === 'replacement' ? (this.doing.renews(thing.name) ?? thing.name) : thing.name;
      const kind = thing.kind === 'replacement' ? 'part' : thing.kind;
      if (kind === 'cover' || kind === 'part') {
        const before = this.get(kind, name);
        if (before === undefined) continue;
        if (
          !this.asksState() &&
          before !== COVER.open &&
          before !== COVER.given &&
          thing.kind !== 'replacement' &&
          !(kind === 'part' && this.anyLoose(name))
        )
          this.breach(
            'close-unopened',
            name,
            [],
            [layout[kind] + (layout.table[kind === 'cover' ? 'covers' : 'parts'].get(name) ?? 0)],
            undefined,
            'warning',
          );
        this.set(kind, name, COVER.done);
        // Screws without a torque are put in with the thing they belong to.
        for (const index of layout.table.fastenersOf(name))
          if (layout.table.machine.fasteners[index]?.torque === undefined) state[layout.fastener + index] = FASTENER.done;
      } else if (kind === 'fastener') {
        const at = layout.table.fasteners.get(name);
        if (at === undefined) continue;
        const torque = layout.table.machine.fasteners[at]?.torque !== undefined;
        state[layout.fastener + at] = torque ? FASTENER.hand : FASTENER.done;
      }
    }
  }

  /** The words depend on the state of the thing, or on what the reader finds, which may be its state. semantics.md 13. */
  private asksState(): boolean {
    return this.doing.action.when.some(({ kind }) => kind === 'state' || kind === 'fact' || kind === 'unread');
  }

  private anyLoose(name: string): boolean {
    return this.layout.table.fastenersOf(name).some((index) => this.state[this.layout.fastener + index] === FASTENER.loose);
  }

  private tighten(): void {
    const { layout, state } = this;
    const { action } = this.doing;
    for (const { thing } of this.things('fastener')) {
      const at = layout.table.fasteners.get(thing.name);
      if (at === undefined) continue;
      const fastener = layout.table.machine.fasteners[at];
      const before = state[layout.fastener + at];
      const of = fastener?.of;
      const opened = of !== undefined && [this.get('cover', of), this.get('part', of)].some((value) => value !== undefined && value !== 0);
      if (before === FASTENER.found && !opened && !this.asksState())
        this.breach('close-unopened', thing.name, [], [layout.fastener + at], undefined, 'warning');
      state[layout.fastener + at] = action.stage === 'hand' || action.stage === 'first' ? FASTENER.hand : FASTENER.done;
    }
  }

  private temporary(tool: string, value: number): void {
    const at = this.layout.temporaries.indexOf(tool);
    if (at < 0 || !this.doing.temporary(tool)) return;
    this.state[this.layout.temporary + at] = value;
    if (value === 0 && this.doing.toolKind(tool) === 'earth lead') this.bare();
  }

  /** No earth is on any more: what it kept from coming back may be there again. A good proof stays one for the rules; semantics.md 7. */
  private bare(): void {
    const { layout, state } = this;
    for (const row of layout.table.sources) {
      const at = layout.proof + row.index;
      if (row.source.canComeBack && electrical(row) && state[at] === PROOF.good && !this.earthed(row) && !held(layout, state, row))
        state[at] = PROOF.bared;
    }
  }

  /** "Until the gauge shows 0": what is waited for shows this source, and not another. */
  private seenGone({ source }: SourceRow): boolean {
    const words = this.doing.action.until?.text.toLowerCase() ?? '';
    // "Until the thermometer shows 180 °C": it is there, and not gone.
    if (!showsGone(words) && !showsLittle(words)) return false;
    return [source.name, ...source.shownBy, ...source.provedWith].some((name) => words.includes(name.toLowerCase()));
  }

  private wait(): void {
    const { layout, state } = this;
    const { action } = this.doing;
    const waited = action.amounts.map((amount) => secondsWaited(amount.text, layout.table.mark)).find((seconds) => seconds !== undefined);
    for (const row of layout.table.sources) {
      const settled = waited ? row.settles && longEnough(waited, row.settles) : this.seenGone(row);
      if (row.settles && settled && isolated(layout, state, row)) state[layout.stored + row.index] = STORED.gone;
      this.wearProof(row);
    }
    // Whoever waits until the gauge shows nothing has read it; where something else is still missing it was a wait and no proof.
    if (action.until !== undefined) this.readGauges(action.until.text, false);
  }
}

/** Measurements that an action reads anew. */
export function measuredBy({ kind, things }: Action): readonly string[] {
  if (!READS.has(kind)) return [];
  return things.flatMap(({ thing }) => (thing.kind === 'measurement' ? [thing.name] : []));
}
const READS: ReadonlySet<ActionKind> = new Set(['prove', 'observe', 'measure', 'sense']);

/** Under, within, over, pass, fail: every outcome possible. */
export const ALL_OUTCOMES = 31;

function waysToProve({ source }: SourceRow): string[] {
  const ways = [
    ...source.tryOut.map((name) => `trying the ${name}`),
    ...source.shownBy.map((name) => `reading the ${name}`),
    ...source.provedWith.map((kind) => `measuring with a ${kind}`),
  ];
  return [ways.join(' or ')];
}
