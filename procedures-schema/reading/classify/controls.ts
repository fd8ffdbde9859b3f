/** Buttons, switches and levers: stopping, starting, trying, and what is set to a position. */
import { actionOf, anew, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';
import { handOn } from './hands.ts';
import { movePoints } from './points.ts';
import { toolInUse } from './tools.ts';

export function stopMachine(deed: Deed): Classified {
  const control = [...deed.objects, ...deed.tools, ...usesAt(deed, 'at', 'on')].find((use) => use.thing.kind === 'control');
  const stops = control && (deed.equipment.control(control.thing.name)?.stops.length ?? 0) > 0;
  if (control && !stops && deed.phrase.sense === 'off') return done(deed, 'control', [control], { position: 'off', contact: false });
  if (control && stops) return done(deed, 'shut-down', [control], { contact: false });
  const machine =
    deed.phrase.nouns.includes('machine') || deed.objects.some((use) => ['machine', 'part', 'model'].includes(use.thing.kind));
  if (!machine || deed.phrase.unknown.length > 0) return cannot(deed);
  return {
    actions: [
      actionOf(
        deed,
        'shut-down',
        deed.objects.filter((use) => use.thing.kind === 'machine'),
        { contact: false },
      ),
    ],
  };
}

export function startMachine(deed: Deed): Classified {
  // "Start both screws by hand": into their threads.
  if (deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'fastener') && deed.phrase.unknown.length === 0)
    return done(deed, deed.around.stage === undefined ? 'close' : 'tighten', deed.objects);
  const control = [...deed.objects, ...deed.tools].filter((use) => use.thing.kind === 'control');
  const machine =
    deed.phrase.nouns.some((noun) => noun === 'machine' || noun === 'test') ||
    deed.objects.some((use) => ['machine', 'part', 'model'].includes(use.thing.kind));
  if (control.length === 0 && !machine) return cannot(deed);
  if (deed.phrase.unknown.length > 0 && !deed.around.testRun) return cannot(deed);
  return { actions: [actionOf(deed, deed.around.testRun ? 'test-run' : 'start', control, { contact: false })] };
}

export function showsNothing(deed: Deed): boolean {
  return (
    deed.around.result !== undefined && /\b(?:not|no|nothing|neither|none|never|still|dead|stays?|without)\b/i.test(deed.around.result)
  );
}

export function treadOn(deed: Deed): Classified {
  const controls = usesAt(deed, 'on').filter((use) => use.thing.kind === 'control');
  return pressControl(anew(deed, { ...deed.phrase, sense: 'press', objects: controls, places: [] }));
}

export function pressControl(deed: Deed): Classified {
  if (deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement'))
    return deed.phrase.sense === 'press' ? handOn(deed, 'handle') : cannot(deed);
  if (deed.phrase.sense === 'try' && deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'tool'))
    return toolInUse(deed);
  // "Push the lever down."
  const levers = deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'point');
  if (levers && deed.phrase.position !== undefined && deed.phrase.sense === 'press') return setTo(deed);
  const controls = deed.objects.filter((use) => use.thing.kind === 'control');
  if (controls.length === 0 || controls.length !== deed.objects.length || deed.phrase.unknown.length > 0) return cannot(deed);
  if (deed.phrase.sense === 'try' || deed.around.proving || showsNothing(deed)) return done(deed, 'try-out', controls, { contact: false });
  if (deed.around.testRun) return done(deed, 'test-run', controls, { contact: false });
  if (deed.phrase.position !== undefined) return done(deed, 'control', controls, { position: deed.phrase.position, contact: false });
  const stops = controls.every((use) => (deed.equipment.control(use.thing.name)?.stops.length ?? 0) > 0);
  const starts = controls.every((use) => {
    const control = deed.equipment.control(use.thing.name);
    return control !== undefined && (control.starts.length > 0 || control.holdToRun);
  });
  if (stops) return done(deed, 'shut-down', controls, { contact: false });
  return starts ? done(deed, 'start', controls, { contact: false }) : done(deed, 'control', controls, { contact: false });
}

/** "Set the knob to run", "turn the isolator off", "put the lever in neutral". */
export function setTo(deed: Deed): Classified {
  const { phrase } = deed;
  const to = phrase.position ?? namedPosition(deed);
  const [first] = deed.objects;
  if (!first || phrase.unknown.length > 0) return cannot(deed);
  if (first.thing.kind === 'point') {
    if (to !== undefined) return movePoints(deed, [to]);
    // A prop or pin has one way to be set; a valve has two.
    const holds = deed.objects.every((use) => deed.equipment.roles(use.thing.name).join() === 'restrain');
    return holds && ['set', 'put', 'place', 'fit', 'insert'].includes(phrase.base) ? movePoints(deed, ['in']) : cannot(deed);
  }
  if (first.thing.kind === 'control') {
    if (deed.around.proving) return done(deed, 'try-out', deed.objects, { contact: false });
    // "Set the switch to hand: the pump must not start": tried, and left there.
    if (to !== undefined && deed.around.result !== undefined && /\b(?:must|may) not\b|\bnothing\b|^no\b/i.test(deed.around.result))
      return {
        actions: [
          actionOf(deed, 'control', deed.objects, { position: to, contact: false }),
          actionOf(deed, 'try-out', deed.objects, { contact: false }),
        ],
      };
    if (to === undefined) return phrase.sense === 'turn' || phrase.amounts.length > 0 ? done(deed, 'adjust', deed.objects) : cannot(deed);
    return done(deed, 'control', deed.objects, { position: to, contact: false });
  }
  if (first.thing.kind === 'measurement') return done(deed, 'adjust', deed.objects);
  if (first.thing.kind === 'cover' && to !== undefined) {
    const position = deed.tables.positions.get(to) ?? to;
    if (position === 'open' || position === 'shut') return done(deed, position === 'open' ? 'open' : 'close', deed.objects);
  }
  if (to !== undefined && ['off', 'out'].includes(to)) return cannot(deed);
  // "Turn the hook a quarter turn with the start key": the machine does it.
  const keys = deed.tools.filter((use) => use.thing.kind === 'control');
  if (keys.length > 0) return done(deed, deed.around.testRun ? 'test-run' : 'start', keys, { contact: false });
  if (first.thing.kind === 'part' || first.thing.kind === 'fastener' || first.thing.kind === 'cover')
    return phrase.sense === 'set' && phrase.amounts.length > 0
      ? done(deed, 'adjust', deed.objects)
      : done(deed, 'move', deed.objects, to === undefined ? {} : { position: to });
  if (first.thing.kind === 'tool') return { actions: [actionOf(deed, 'use', deed.objects, { contact: false })] };
  return cannot(deed);
}

function namedPosition(deed: Deed): string | undefined {
  const place = deed.phrase.places.find((one) => ['to', 'in', 'into', 'at'].includes(one.preposition) && one.uses.length === 0);
  const word = /^(?:to|in|into|at)\s+(?:the\s+)?["“]?([\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)*)["”]?(?:\s+(?:position|mode|setting))?\b/iu
    .exec(place?.text ?? '')?.[1]
    ?.toLowerCase();
  return word === undefined || deed.tables.sets.determiners.has(word) ? undefined : word;
}
