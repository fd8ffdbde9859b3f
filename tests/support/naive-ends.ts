/** Rule E of the naive checker, from semantics.md 12: what is owed at an end, and whether the end is the one that was said. */
import type { Source } from '../../procedures-schema/index.ts';
import { isolatedIn, lockedIn, relievedIn, type Slip, type World } from './naive-effects.ts';
import { causeOf, get, type Naive } from './naive-state.ts';

export type NaiveEnd = 'normal' | 'stop and call' | 'hand-over';

export function owedAt(world: World, naive: Naive, end: NaiveEnd, endsWith: string): readonly Slip[] {
  const { machine } = world;
  const slips: Slip[] = [];
  const slip = (rule: string, thing: string, wrong: readonly string[]): void => {
    slips.push({ rule, thing, cause: causeOf(naive, wrong) });
  };
  const anybody = ['reader', ...world.roles];
  const declared = get(naive, 'declared') === 'yes';
  if (end === 'stop and call' && !declared) return [];
  if (declared || endsWith !== 'closed') {
    for (const source of machine.sources) {
      const missing = notLockedOut(world, naive, source);
      if (missing && (missing.point || !(declared || endsWith === 'out of service'))) slip('ends-with', source.name, missing.wrong);
    }
    return slips;
  }
  // What is still open is handed on by name; the visit asks for it.
  if (end === 'hand-over') return slips;
  for (const { name } of machine.covers) if (get(naive, `cover ${name}`) === 'open') slip('E-cover', name, [`cover ${name}`]);
  for (const { name } of machine.parts) if (get(naive, `part ${name}`) === 'out') slip('E-part', name, [`part ${name}`]);
  for (const { name, of } of machine.fasteners) {
    const off = get(naive, `cover ${of}`) === 'open' || get(naive, `part ${of}`) === 'out';
    if (['loose', 'hand'].includes(get(naive, `fastener ${name}`)) && !off) slip('E-fastener', name, [`fastener ${name}`]);
  }
  for (const name of world.temporary) if (get(naive, `temporary ${name}`) === 'in') slip('E-temporary', name, [`temporary ${name}`]);
  for (const { name } of machine.points) {
    const on = anybody.filter((one) => get(naive, `lock ${name} ${one}`) === 'yes' && get(naive, `taken lock ${name} ${one}`) !== 'yes');
    if (on.length > 0)
      slip(
        'E-lock',
        name,
        on.map((one) => `lock ${name} ${one}`),
      );
    if (get(naive, `point ${name}`) === 'safe' && get(naive, `taken point ${name}`) !== 'yes') slip('E-point', name, [`point ${name}`]);
  }
  for (const { name, returnTest } of [...machine.parts, ...machine.covers, ...machine.fasteners])
    if (returnTest !== undefined && get(naive, `test ${name}`) === 'owed') slip('E-return-test', name, [`test ${name}`]);
  if (get(naive, 'told') !== 'yes') slip('E-told', 'people', ['told']);
  return slips;
}

/** What is missing of "opened and locked out" for one source: the bits, and whether it is a point or its lock. A used proof was made. */
export function notLockedOut(
  world: World,
  naive: Naive,
  source: Source,
): { readonly wrong: readonly string[]; readonly point: boolean } | undefined {
  const anybody = ['reader', ...world.roles];
  const off = source.isolate.filter(({ point }) => get(naive, `point ${point}`) !== 'safe');
  if (!isolatedIn(naive, source)) return { wrong: off.map(({ point }) => `point ${point}`), point: true };
  if (!lockedIn(world, naive, source, anybody)) {
    const lockable = source.isolate.filter(({ point }) =>
      world.machine.points.some((one) => one.name === point && one.lockable && !one.plug),
    );
    const bare = lockable.filter(({ point }) => anybody.every((one) => get(naive, `lock ${point} ${one}`) !== 'yes'));
    return { wrong: bare.flatMap(({ point }) => anybody.map((one) => `lock ${point} ${one}`)), point: true };
  }
  if (!relievedIn(naive, source)) {
    const open = [...source.relieve, ...source.restrain].filter(({ point }) => get(naive, `point ${point}`) !== 'safe');
    return { wrong: [`stored ${source.name}`, ...open.map(({ point }) => `point ${point}`)], point: false };
  }
  const proof = get(naive, `proof ${source.name}`);
  const provable = source.tryOut.length + source.shownBy.length + source.provedWith.length > 0;
  return provable && proof !== 'good' && proof !== 'used' ? { wrong: [`proof ${source.name}`], point: false } : undefined;
}

/** What keeps a machine from being closed and ready: a cover off, a point still safe. */
export function notClosed(world: World, naive: Naive): readonly string[] | undefined {
  const cover = world.machine.covers.find(({ name }) => ['open', 'given'].includes(get(naive, `cover ${name}`)));
  if (cover) return [`cover ${cover.name}`];
  const point = world.machine.points.find(({ name }) => get(naive, `point ${name}`) === 'safe');
  return point && [`point ${point.name}`];
}
