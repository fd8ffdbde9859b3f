/** A hand at work on a part: wiping, moving about, holding. Where nothing says what the hand is on, it is unread. */
import type { ActionKind } from '../action.ts';
import { actionOf, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';
import { fitThings } from './fitting.ts';
import { toolInUse } from './tools.ts';

export function handOn(deed: Deed, kind: ActionKind): Classified {
  // "Slide the new blade into the holder", "push the rod back into the cylinder": put in, not moved about.
  const into =
    deed.phrase.places.some((place) => ['into', 'onto'].includes(place.preposition)) || ['in', 'on'].includes(deed.phrase.particle);
  if (
    kind === 'move' &&
    into &&
    deed.objects.length > 0 &&
    deed.objects.every(
      (use) =>
        use.thing.kind === 'replacement' ||
        (use.thing.kind === 'part' &&
          (deed.phrase.base === 'slide' || deed.phrase.particle === 'back' || /\bback\b/.test(deed.phrase.text))),
    )
  )
    return done(deed, 'close', deed.objects);
  // "Slip the new belt over the pulleys."
  if (
    kind === 'move' &&
    ['slip', 'slide'].includes(deed.phrase.base) &&
    usesAt(deed, 'over', 'onto', 'on').some((use) => ['part', 'fastener'].includes(use.thing.kind)) &&
    deed.objects.length > 0 &&
    deed.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement') &&
    deed.phrase.unknown.length === 0
  )
    return fitThings(deed);
  if ((kind === 'move' || kind === 'handle') && deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'tool'))
    return deed.phrase.base !== 'lay' && deed.objects.some((use) => deed.equipment.tool(use.thing.name)?.contact)
      ? cannot(deed)
      : toolInUse(deed);
  const controls = deed.tools.filter((use) => use.thing.kind === 'control');
  if (kind === 'move' && controls.length > 0) return done(deed, deed.around.testRun ? 'test-run' : 'start', controls, { contact: false });
  // "Scrape the dust off the blades": the hand is where the blades are, whatever the dust is.
  const dirt = kind === 'clean' && deed.objects.every((use) => use.thing.kind === 'consumable');
  if ((deed.objects.length === 0 || dirt) && (kind === 'clean' || kind === 'handle')) {
    const where = usesAt(
      deed,
      'off',
      'from',
      'on',
      'at',
      'of',
      'in',
      'along',
      'against',
      'between',
      'through',
      'around',
      'under',
      'over',
    ).filter((use) => ['part', 'cover', 'fastener', 'zone'].includes(use.thing.kind));
    if (where.length > 0) return done(deed, kind, where);
  }
  if (deed.phrase.unknown.length > 0) return cannot(deed);
  const things = deed.objects.filter((use) =>
    ['part', 'cover', 'fastener', 'zone', 'gauge', 'control', 'replacement', 'machine'].includes(use.thing.kind),
  );
  const points = deed.objects.filter((use) => use.thing.kind === 'point');
  if (points.length > 0 && kind !== 'clean') return cannot(deed);
  if (things.length + points.length !== deed.objects.length)
    return deed.objects.every((use) => use.thing.kind === 'tool') && deed.objects.length > 0 && kind === 'handle'
      ? { actions: [actionOf(deed, 'use', deed.objects, { contact: false })] }
      : cannot(deed);
  return done(deed, kind, deed.objects);
}
