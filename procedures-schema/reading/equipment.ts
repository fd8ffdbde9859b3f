/** What the registers say of a named thing, for the verbs that never decide alone: which position of a point is safe, what a control does. */
import type { Control, Family, PointRole, Registers, Thing, Tool } from '../registers/index.ts';
import type { ActionKind } from './action.ts';
import type { Tables } from './tables.ts';

export interface Equipment {
  /** What bringing a point to a position does, and the position in the register's word. Undefined: the register does not decide. */
  move(point: string, position: string): { readonly kind: ActionKind; readonly position: string } | undefined;
  control(name: string): Control | undefined;
  tool(name: string): Tool | undefined;
  roles(point: string): readonly PointRole[];
  isPlug(point: string): boolean;
  /** Fasteners that hold a cover or part, where the register names one kind of them and no more. */
  screwsOf(name: string): Thing | undefined;
  /** Points that a lock can hold. */
  lockable(): readonly Thing[];
}

const SAFE: Readonly<Record<PointRole, ActionKind>> = { isolate: 'isolate', relieve: 'relieve', restrain: 'restrain' };
const UNSAFE: Readonly<Record<PointRole, ActionKind>> = { isolate: 'restore', relieve: 'unrelieve', restrain: 'release' };
const ROLES: readonly PointRole[] = ['isolate', 'relieve', 'restrain'];

export function equipmentOf(families: readonly Family[], registers: Registers, tables: Tables): Equipment {
  const uses = (point: string): { role: PointRole; safe: string }[] =>
    ROLES.flatMap((role) =>
      families.flatMap((family) =>
        family.sources.flatMap((source) => source[role].filter((use) => use.point === point).map((use) => ({ role, safe: use.safe }))),
      ),
    );
  const classOf = (word: string): string => tables.positions.get(word.toLowerCase()) ?? word.toLowerCase();
  return {
    move(point, position) {
      const wanted = classOf(position);
      const all = uses(point);
      const safe = all.find((use) => classOf(use.safe) === wanted);
      // Two sources that want the point in different positions: its position alone decides nothing.
      if (new Set(all.map((use) => classOf(use.safe))).size > 1) return undefined;
      if (safe) return { kind: SAFE[safe.role], position: safe.safe };
      const first = all[0];
      if (!first) return undefined;
      if (tables.opposite.get(classOf(first.safe)) === wanted) return { kind: UNSAFE[first.role], position };
      const known = families.flatMap((family) => family.points).find((one) => one.name === point)?.positions ?? [];
      const named = known.find((one) => classOf(one) === wanted);
      return named === undefined ? undefined : { kind: UNSAFE[first.role], position: named };
    },
    control: (name) => families.flatMap((family) => family.controls).find((one) => one.name === name),
    tool: (name) => registers.tools.find((one) => one.name === name),
    roles: (point) => [...new Set(uses(point).map((use) => use.role))],
    screwsOf(name) {
      const found = families.flatMap((family) => [
        ...family.fasteners.filter((one) => one.of === name).map((one) => ({ name: one.name, family: family.name })),
        ...family.covers
          .filter((one) => one.name === name)
          .flatMap((one) => one.fasteners.map((own) => ({ name: own, family: family.name }))),
      ]);
      const names = new Set(found.map((one) => one.name));
      const [first] = found;
      return first && names.size === 1 ? { kind: 'fastener', ...first } : undefined;
    },
    lockable: () =>
      families.flatMap((family) =>
        family.points.flatMap(({ name, lockable }): Thing[] => (lockable ? [{ kind: 'point', name, family: family.name }] : [])),
      ),
    isPlug: (point) => families.some((family) => family.points.some((one) => one.name === point && one.plug)),
  };
}

export function isKind(thing: Thing, ...kinds: readonly Thing['kind'][]): boolean {
  return kinds.includes(thing.kind);
}
