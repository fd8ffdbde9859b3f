/** A machine as tables with numbers for its things, so that states are small and effects quick. Made once a machine. */
import { compare, type DecimalMark, decimalMarkOf, multiply, parseQuantity, type Rational } from '../quantities/index.ts';
import type { Machine, Source } from '../registers/index.ts';

export interface SourceRow {
  readonly index: number;
  readonly source: Source;
  /** Point numbers. */
  readonly isolate: readonly number[];
  readonly relieve: readonly number[];
  readonly restrain: readonly number[];
  /** Seconds after which it is gone once isolated. */
  readonly settles?: Rational;
  /** The register names a way to show that it is dead. */
  readonly provable: boolean;
  /** Only a meter shows it, so a cover may have to come off before. */
  readonly meterOnly: boolean;
}

/** A zone and what endangers a hand there. */
export interface Danger {
  readonly zone: string;
  readonly sources: readonly SourceRow[];
}

export interface MachineTable {
  readonly machine: Machine;
  /** How its library writes numbers. */
  readonly mark: DecimalMark;
  readonly sources: readonly SourceRow[];
  readonly sourceOf: ReadonlyMap<string, SourceRow>;
  readonly points: ReadonlyMap<string, number>;
  readonly pointNames: readonly string[];
  readonly covers: ReadonlyMap<string, number>;
  readonly parts: ReadonlyMap<string, number>;
  readonly fasteners: ReadonlyMap<string, number>;
  readonly controls: ReadonlyMap<string, number>;
  readonly controlNames: readonly string[];
  /** Sources that endanger a hand on the thing; all of them where it has no zone. */
  readonly dangerTo: (kind: string, name: string) => Danger | undefined;
  /** Covers over zones that a source endangers. */
  readonly coversOver: (source: SourceRow) => readonly number[];
  readonly coverNames: readonly string[];
  readonly partNames: readonly string[];
  readonly fastenerNames: readonly string[];
  /** Fasteners that hold a cover or part on. */
  readonly fastenersOf: (name: string) => readonly number[];
  readonly returnTests: ReadonlyMap<string, string>;
}

const CACHE = new WeakMap<Machine, MachineTable>();

export function tableOf(machine: Machine): MachineTable {
  const known = CACHE.get(machine);
  if (known) return known;
  const made = make(machine);
  CACHE.set(machine, made);
  return made;
}

function numbered(things: readonly { readonly name: string }[]): Map<string, number> {
  return new Map(things.map((thing, index) => [thing.name, index]));
}

function make(machine: Machine): MachineTable {
  const points = numbered(machine.points);
  const numbers = (uses: readonly { readonly point: string }[]): number[] => uses.flatMap((use) => points.get(use.point) ?? []);
  const mark = decimalMarkOf(machine.language ?? 'en');
  const sources = machine.sources.map((source, index): SourceRow => {
    const settles = source.settles === undefined ? undefined : secondsNeeded(source.settles, mark);
    return {
      index,
      source,
      isolate: numbers(source.isolate),
      relieve: numbers(source.relieve),
      restrain: numbers(source.restrain),
      ...(settles ? { settles } : {}),
      provable: source.tryOut.length + source.shownBy.length + source.provedWith.length > 0,
      meterOnly: source.tryOut.length === 0 && source.shownBy.length === 0 && source.provedWith.length > 0,
    };
  });
  const sourceOf = new Map(sources.map((row) => [row.source.name, row]));
  const zones = new Map(machine.zones.map((zone) => [zone.name, zone]));
  const rows = (names: readonly string[]): SourceRow[] => names.flatMap((name) => sourceOf.get(name) ?? []);
  const whole = { zone: '', sources };
  const inZone = (zone: string | undefined) => {
    if (zone === undefined) return whole;
    const found = zones.get(zone);
    return found ? { zone: found.name, sources: rows(found.endangeredBy) } : whole;
  };
  const covers = numbered(machine.covers);
  const dangers = new Map<string, Danger | undefined>();
  return {
    machine,
    mark,
    sources,
    sourceOf,
    points,
    pointNames: machine.points.map((point) => point.name),
    covers,
    coverNames: machine.covers.map((cover) => cover.name),
    parts: numbered(machine.parts),
    partNames: machine.parts.map((part) => part.name),
    fasteners: numbered(machine.fasteners),
    fastenerNames: machine.fasteners.map((fastener) => fastener.name),
    controls: numbered(machine.controls),
    controlNames: machine.controls.map((control) => control.name),
    dangerTo(kind, name) {
      // Asked for every state that meets a hand.
      const key = `${kind} ${name}`;
      if (!dangers.has(key)) dangers.set(key, dangerTo(kind, name));
      return dangers.get(key);
    },
    coversOver: (row) =>
      machine.zones
        .filter((zone) => zone.endangeredBy.includes(row.source.name))
        .flatMap((zone) =>
          machine.covers
            .filter((cover) => cover.zone === zone.name || zone.behind.includes(cover.name))
            // What has to be open for somebody to reach a point cannot be on when the point is moved.
            .filter((cover) => !machine.points.some((point) => point.behind === cover.name))
            .flatMap((cover) => covers.get(cover.name) ?? []),
        ),
    fastenersOf: (name) => machine.fasteners.flatMap((fastener, index) => (fastener.of === name ? [index] : [])),
    returnTests: new Map(
      [...machine.parts, ...machine.covers, ...machine.fasteners].flatMap((thing) =>
        thing.returnTest === undefined ? [] : [[thing.name, thing.returnTest]],
      ),
    ),
  };

  function dangerTo(kind: string, name: string): Danger | undefined {
    if (kind === 'cover') {
      const cover = machine.covers.find((one) => one.name === name);
      const hidesPoint = machine.points.some((point) => point.behind === name);
      return !cover || cover.openLive || hidesPoint || cover.zone === undefined ? undefined : inZone(cover.zone);
    }
    if (kind === 'part') {
      const part = machine.parts.find((one) => one.name === name);
      if (!part) return undefined;
      return withHeld(inZone(part.zone), part.holds);
    }
    if (kind === 'fastener') {
      const fastener = machine.fasteners.find((one) => one.name === name);
      if (!fastener) return undefined;
      // Screws of a cover stand outside it; what is behind counts when the cover comes off.
      if (fastener.zone === undefined && fastener.of !== undefined && covers.has(fastener.of)) return undefined;
      const of = machine.parts.find((one) => one.name === fastener.of);
      return withHeld(inZone(fastener.zone ?? of?.zone), fastener.holds);
    }
    if (kind === 'zone') return inZone(name);
    if (kind === 'point' || kind === 'gauge' || kind === 'control') {
      const zone = [...machine.points, ...machine.gauges, ...machine.controls].find((one) => one.name === name)?.zone;
      return zone === undefined ? undefined : inZone(zone);
    }
    return undefined;
  }

  /** Loosening what holds a source is letting it go: it must be safe before. */
  function withHeld(danger: { zone: string; sources: readonly SourceRow[] }, holds: string | undefined) {
    const held = holds === undefined ? undefined : sourceOf.get(holds);
    return !held || danger.sources.includes(held) ? danger : { zone: danger.zone, sources: [...danger.sources, held] };
  }
}

/** What is waited at least: of "5 to 10 min" the 5. */
export const secondsWaited = (text: string, mark: DecimalMark): Rational | undefined => secondsIn(text, mark, 'lower');

/** What must be waited: of "5 to 10 min" the 10. */
export const secondsNeeded = (text: string, mark: DecimalMark): Rational | undefined => secondsIn(text, mark, 'upper');

/** A number that can be read two ways is none here: "1,500 s" waits twenty-five minutes or a second and a half. */
function secondsIn(text: string, mark: DecimalMark, end: 'lower' | 'upper'): Rational | undefined {
  const quantity = parseQuantity(text, mark);
  const amount = quantity?.nominal ?? (quantity?.form === 'range' ? quantity[end] : quantity?.lower);
  if (!quantity || !amount || amount.doubtful !== undefined || quantity.unit.kind !== 'time') return undefined;
  return multiply(amount.value, quantity.unit.factor);
}

export function longEnough(waited: Rational, needed: Rational): boolean {
  return compare(waited, needed) >= 0;
}
