/** Verbs that decide nothing by themselves: put, hold, keep, clear. The kind of thing or a position said decides. */
import { applyTo } from './applying.ts';
import { pressControl, setTo, showsNothing, treadOn } from './controls.ts';
import { actionOf, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';
import { handOn } from './hands.ts';
import { movePoints } from './points.ts';
import { temporaryTool } from './tools.ts';

/** "Put the guard on the bench", "put the old blade into the box": the thing is off the machine, not back on it. */
function putDown(deed: Deed): boolean {
  const { phrase } = deed;
  const { restingPlaces, discarded } = deed.tables.lexicon;
  if (!deed.objects.every((use) => ['part', 'cover', 'fastener', 'replacement'].includes(use.thing.kind))) return false;
  const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/[^a-z-]+/);
  if (phrase.places.some((place) => wordsOf(place.text).some((word) => restingPlaces.includes(word)))) return true;
  const [first] = deed.objects;
  const before = first === undefined ? [] : wordsOf(phrase.text.slice(0, Math.max(0, first.end - phrase.at)));
  return before.some((word) => discarded.includes(word));
}

export function putThings(deed: Deed): Classified {
  const { phrase } = deed;
  const [first] = deed.objects;
  const whole = phrase.nouns.includes('machine') || deed.objects.some((use) => use.thing.kind === 'machine');
  if (whole && phrase.places.some((place) => place.nouns.includes('service') && place.preposition === 'out'))
    return { actions: [actionOf(deed, 'out-of-service', [], { contact: false })] };
  // "Put the key in your pocket."
  if (!first && phrase.unknown.every(({ text }) => /^keys?$/i.test(text)) && /\bin your pocket\b/i.test(phrase.text))
    return { actions: [] };
  if (!first || phrase.unknown.length > 0) return cannot(deed);
  if (putDown(deed)) return handOn(deed, 'handle');
  switch (first.thing.kind) {
    case 'point':
    case 'control':
      if (phrase.particle === 'in' || phrase.particle === 'out')
        return first.thing.kind === 'point' ? movePoints(deed, [phrase.particle]) : cannot(deed);
      return setTo(deed);
    case 'cover':
      return done(deed, 'close', deed.objects);
    case 'part':
    case 'fastener':
    case 'replacement':
      return done(deed, 'close', deed.objects);
    case 'consumable':
      return applyTo(deed);
    case 'tool': {
      if (deed.objects.every((use) => deed.equipment.tool(use.thing.name)?.protective))
        return done(deed, 'protect', deed.objects, { contact: false });
      return temporaryTool(deed, 'put-in');
    }
    default:
      return cannot(deed);
  }
}

export function handleThings(deed: Deed): Classified {
  const { phrase } = deed;
  if (deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'control'))
    return phrase.base === 'hold' ? pressControl(deed) : cannot(deed);
  const temporary = deed.tools.filter((use) => deed.equipment.tool(use.thing.name)?.temporary);
  if (temporary.length > 0 && phrase.unknown.length === 0) return done(deed, 'put-in', temporary);
  if (
    phrase.particle === 'in' &&
    deed.objects.length > 0 &&
    deed.objects.every((use) => use.thing.kind === 'part' || use.thing.kind === 'replacement')
  )
    return done(deed, phrase.renewed ? 'renew' : 'close', deed.objects);
  return handOn(deed, 'handle');
}

export function clearAway(deed: Deed): Classified {
  const { phrase } = deed;
  if (phrase.nouns.includes('people')) return { actions: [actionOf(deed, 'clear-people', [], { contact: false })] };
  if (phrase.nouns.includes('tools')) return { actions: [actionOf(deed, 'take-tools', [], { contact: false })] };
  return cannot(deed, '"clear" may be people, tools or a blockage');
}

export function keepSo(deed: Deed): Classified {
  const { phrase } = deed;
  if (goesOnDoing(deed)) return cannot(deed);
  if (phrase.nouns.includes('people')) return { actions: [actionOf(deed, 'clear-people', [], { contact: false })] };
  if (/\b(?:clear|away|back|out)\b/.test(phrase.text)) return { actions: [actionOf(deed, 'stand-clear', [], { contact: false })] };
  const plug = deed.objects.find((use) => use.thing.kind === 'point' && deed.equipment.isPlug(use.thing.name));
  if (plug) return { actions: [actionOf(deed, 'lock', [plug], { contact: false })] };
  const gauges = deed.objects.filter((use) => use.thing.kind === 'gauge');
  if (gauges.length > 0 && /\b(?:view|sight)\b/.test(phrase.text))
    return done(deed, 'observe', gauges, { contact: false, manner: 'in view' });
  return { actions: [] };
}

/** "Keep wiping the scraper": the second verb says what is done. */
export function goesOnDoing(deed: Deed): boolean {
  const second = /^\w+ (?:on )?(\w+)/.exec(deed.phrase.text.toLowerCase())?.[1] ?? '';
  return deed.tables.verbs.get(second)?.some(({ form }) => form === 'gerund') ?? false;
}

/** Verbs that decide nothing: only a hand laid on something, or a position said, can be read. */
export function weakVerb(deed: Deed): Classified {
  const { phrase } = deed;
  if (phrase.position !== undefined && deed.objects.length > 0) return setTo(deed);
  if (phrase.base === 'step' && usesAt(deed, 'on').some((use) => use.thing.kind === 'control')) return treadOn(deed);
  // "Pull the lever both ways: nothing may move."
  const pulled = deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'control');
  if (pulled && phrase.particle === '' && phrase.unknown.length === 0 && (deed.around.proving || showsNothing(deed)))
    return done(deed, 'try-out', deed.objects, { contact: false });
  // "Run the bolts in by hand."
  if (
    phrase.base === 'run' &&
    deed.objects.length > 0 &&
    deed.objects.every((use) => use.thing.kind === 'fastener') &&
    phrase.unknown.length === 0
  )
    return done(deed, deed.around.stage === undefined ? 'close' : 'tighten', deed.objects);
  const where = usesAt(deed, 'at', 'on', 'along', 'over', 'against', 'across').filter((use) =>
    ['part', 'cover', 'fastener'].includes(use.thing.kind),
  );
  const it = phrase.places.some((place) => place.pronoun)
    ? deed.around.it.filter((use) => ['part', 'cover', 'fastener'].includes(use.thing.kind))
    : [];
  const touched = where.length > 0 ? where : it;
  if (touched.length === 0 || deed.objects.length > 0 || phrase.unknown.length > 0) return cannot(deed);
  return done(deed, phrase.nouns.includes('work') ? 'sense' : 'handle', touched, { contact: true });
}
