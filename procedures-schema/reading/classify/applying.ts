/** Grease, sealant and their kind, put on what they are said to be put on. */
import { actionOf, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';

export function applyTo(deed: Deed): Classified {
  const onto = usesAt(deed, 'to', 'on', 'onto', 'into', 'in', 'over', 'along', 'between', 'through', 'around').filter((use) =>
    ['part', 'cover', 'fastener', 'zone'].includes(use.thing.kind),
  );
  const consumables = deed.objects.filter((use) => use.thing.kind === 'consumable');
  const parts = deed.objects.filter((use) => ['part', 'cover', 'fastener', 'replacement', 'zone'].includes(use.thing.kind));
  if (consumables.length + parts.length !== deed.objects.length) return cannot(deed);
  const onIt = deed.phrase.places.some((place) => place.pronoun);
  const itself = onIt ? deed.around.it.filter((use) => ['part', 'cover', 'fastener'].includes(use.thing.kind)) : [];
  if (consumables.length > 0 && onIt && itself.length === 0) return cannot(deed, 'it is not clear what "it" stands for');
  if (consumables.length > 0 && itself.length > 0) return { actions: [actionOf(deed, 'apply', itself, { with: consumables })] };
  // Points and controls are oiled too.
  const other =
    onto.length > 0 ? [] : usesAt(deed, 'to', 'on', 'onto').filter((use) => ['point', 'control', 'gauge'].includes(use.thing.kind));
  if (consumables.length > 0 && other.length > 0) return { actions: [actionOf(deed, 'apply', other, { with: consumables })] };
  if (consumables.length > 0)
    return { actions: [actionOf(deed, 'apply', onto.length > 0 ? onto : consumables, { with: onto.length > 0 ? consumables : [] })] };
  if (parts.length === 0 || (deed.phrase.unknown.length > 0 && deed.tools.length === 0)) return cannot(deed);
  return done(deed, 'apply', parts);
}
