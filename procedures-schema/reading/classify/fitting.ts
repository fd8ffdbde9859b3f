/** Parts, covers and fasteners off and on, by what kind of thing they are. */
import { applyTo } from './applying.ts';
import { actionOf, byKind, type Classified, type Deed, done } from './deed.ts';
import { movePoints } from './points.ts';
import { allTools, temporaryTool } from './tools.ts';

/** "Tighten its screws", "secure it with its four screws": those of what was handled last. */
export function itsScrews(deed: Deed): Classified | undefined {
  const { phrase, around } = deed;
  const said = /\b(?:its|their) (?:(?:\w+) )?(?:screws?|bolts?|nuts?|clips?)\W*$/i.test(phrase.text);
  const last = around.it.at(-1);
  const own = last && said ? deed.equipment.screwsOf(last.thing.name) : undefined;
  if (own === undefined) return undefined;
  const things = [{ thing: own, at: phrase.at, end: phrase.end }];
  const only = phrase.objects.length === 0 && phrase.nouns.length === 0;
  if (only && !phrase.pronoun && phrase.unknown.length === 1 && phrase.places.length === 0) {
    if (phrase.sense === 'tighten') return done(deed, 'tighten', things);
    if (phrase.sense === 'loosen') return done(deed, 'loosen', things);
  }
  if (only && phrase.pronoun && phrase.base === 'secure' && phrase.places.length === 1 && phrase.places[0]?.preposition === 'with')
    return done(deed, 'tighten', things);
  return undefined;
}

export function removeThings(deed: Deed): Classified {
  if (deed.phrase.nouns.includes('tools') || allTools(deed)) return { actions: [actionOf(deed, 'take-tools', [], { contact: false })] };
  return byKind(deed, {
    cover: () => done(deed, 'open', deed.objects),
    part: () => done(deed, 'open', deed.objects),
    replacement: () => done(deed, 'open', deed.objects),
    fastener: () => done(deed, deed.phrase.base === 'remove' ? 'open' : 'loosen', deed.objects),
    point: () => movePoints(deed, ['out', 'unplugged']),
    tool: () => temporaryTool(deed, 'take-out'),
  });
}

export function fitThings(deed: Deed): Classified {
  return byKind(deed, {
    cover: () => done(deed, 'close', deed.objects),
    part: () => done(deed, deed.phrase.renewed ? 'renew' : 'close', deed.objects),
    replacement: () => done(deed, 'close', deed.objects),
    fastener: () => done(deed, 'close', deed.objects),
    point: () => movePoints(deed, ['in', 'plugged in']),
    tool: () => temporaryTool(deed, 'put-in'),
    consumable: () => applyTo(deed),
  });
}

export function renewThings(deed: Deed): Classified {
  return byKind(deed, {
    part: () => done(deed, 'renew', deed.objects),
    fastener: () => done(deed, 'renew', deed.objects),
    replacement: () => done(deed, 'close', deed.objects),
    cover: () => done(deed, 'renew', deed.objects),
  });
}
