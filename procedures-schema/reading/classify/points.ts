/** Isolation points, relief valves and restraints: moved only where the register says what the position is for. */
import type { Action, ThingUse } from '../action.ts';
import { actionOf, anew, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';

export function movePoints(deed: Deed, wanted: readonly string[]): Classified {
  const actions: Action[] = [];
  for (const use of deed.objects) {
    if (use.thing.kind !== 'point') return cannot(deed);
    const moved = wanted.map((position) => deed.equipment.move(use.thing.name, position)).find((one) => one !== undefined);
    if (!moved) return cannot(deed, `the register does not say what "${wanted[0]}" is for the ${use.thing.name}`);
    const before = actions.at(-1);
    if (before?.kind === moved.kind && before.position === moved.position)
      actions[actions.length - 1] = { ...before, things: [...before.things, use] };
    else actions.push(actionOf(deed, moved.kind, [use], { position: moved.position, contact: false }));
  }
  return actions.length === 0 || deed.phrase.unknown.length > 0 ? cannot(deed) : { actions };
}

/** "Switch on at the isolator". */
export function switchedAt(deed: Deed): Classified | undefined {
  if (deed.objects.length > 0 || deed.phrase.nouns.length > 0) return undefined;
  const points = usesAt(deed, 'at', 'with', 'on').filter((use) => use.thing.kind === 'point');
  if (points.length === 0) return undefined;
  return deed.again(anew(deed, { ...deed.phrase, objects: points, places: [] }));
}

export function isolateAt(deed: Deed): Classified {
  const points = [...deed.objects, ...usesAt(deed, 'at', 'with', 'by', 'using')].filter((use) => use.thing.kind === 'point');
  if (points.length === 0) return cannot(deed, '"isolate" needs the point that does it');
  const actions = points.map((use) =>
    deed.equipment.roles(use.thing.name).includes('isolate') ? actionOf(deed, 'isolate', [use], { contact: false }) : undefined,
  );
  return actions.every((one) => one !== undefined) ? { actions } : cannot(deed);
}

export function bleedAt(deed: Deed): Classified {
  const points = [...deed.objects, ...usesAt(deed, 'through', 'with', 'at', 'by', 'using', 'via')].filter(
    (use) => use.thing.kind === 'point',
  );
  if (points.length > 0) {
    const relieving = points.filter((use) => deed.equipment.roles(use.thing.name).includes('relieve'));
    const use = relieving[0];
    const moved = use && (deed.equipment.move(use.thing.name, 'open') ?? deed.equipment.move(use.thing.name, 'on'));
    return use && moved?.kind === 'relieve'
      ? { actions: [actionOf(deed, 'relieve', [use], { position: moved.position, contact: false })] }
      : cannot(deed);
  }
  const sources = deed.objects.filter((use) => use.thing.kind === 'source');
  return sources.length > 0 && sources.length === deed.objects.length ? done(deed, 'relieve', sources, { contact: false }) : cannot(deed);
}

export function restrainWith(deed: Deed): Classified {
  const points = [...deed.objects, ...deed.tools].filter((use) => use.thing.kind === 'point');
  const holding = points.filter((use) => deed.equipment.roles(use.thing.name).includes('restrain'));
  if (holding.length === 0 || deed.phrase.unknown.length > 0) {
    const temporary = deed.tools.filter((use) => deed.equipment.tool(use.thing.name)?.temporary);
    return temporary.length > 0 ? done(deed, 'put-in', temporary) : cannot(deed);
  }
  const use = holding[0] as ThingUse;
  const moved = deed.equipment.move(use.thing.name, 'in') ?? deed.equipment.move(use.thing.name, 'on');
  return moved?.kind === 'restrain'
    ? { actions: [actionOf(deed, 'restrain', holding, { position: moved.position, contact: false })] }
    : cannot(deed);
}
