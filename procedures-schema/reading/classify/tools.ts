/** Tools: laid ready, put in for a time, taken away, or making energy that was not there. */
import type { ThingUse } from '../action.ts';
import { actionOf, type Classified, cannot, type Deed, done } from './deed.ts';

export function toolInUse(deed: Deed): Classified {
  // "Try the meter on a source that is known to be live": what it shows afterwards counts. semantics.md 6.
  const { text, sense } = deed.phrase;
  const known = ['try', 'test', 'prove'].includes(sense) && (deed.around.known || /\bagain\b/i.test(text));
  return { actions: [actionOf(deed, 'use', deed.objects, { contact: false, ...(known ? { manner: KNOWN_SOURCE } : {}) })] };
}

/** Manner of trying an instrument where it must show something. */
export const KNOWN_SOURCE = 'on a known source';

export function temporaryTool(deed: Deed, kind: 'put-in' | 'take-out'): Classified {
  const own = deed.objects.filter((use) => deed.equipment.tool(use.thing.name)?.temporary);
  if (own.length === deed.objects.length && own.length > 0) return done(deed, kind, own);
  if (kind === 'put-in' && deed.objects.length > 0 && deed.objects.every((use) => deed.equipment.tool(use.thing.name)?.protective))
    return done(deed, 'protect', deed.objects, { contact: false });
  return deed.objects.every((use) => use.thing.kind === 'tool')
    ? { actions: [actionOf(deed, 'use', deed.objects, { contact: false })] }
    : cannot(deed);
}

export function makersAmong(deed: Deed, uses: readonly ThingUse[]): readonly ThingUse[] {
  return uses.filter((use) => use.thing.kind === 'tool' && deed.equipment.tool(use.thing.name)?.makes !== undefined);
}

/** Jacking up, charging, pumping: a load or pressure that was not there before. Read only where it is said by what, or of what source. */
export function makeEnergyWith(deed: Deed, objects: readonly ThingUse[]): Classified {
  const makers = [...makersAmong(deed, objects), ...makersAmong(deed, deed.tools)];
  const sources = objects.filter((use) => use.thing.kind === 'source');
  if ((makers.length === 0 && sources.length === 0) || !['', 'up'].includes(deed.phrase.particle) || deed.phrase.unknown.length > 0)
    return cannot(deed);
  return { actions: [actionOf(deed, 'make-energy', objects, { contact: false })] };
}

export function allTools(deed: Deed): boolean {
  return (
    deed.objects.length > 0 &&
    deed.objects.every((use) => use.thing.kind === 'tool' && !deed.equipment.tool(use.thing.name)?.temporary) &&
    (deed.phrase.sense === 'collect' || (deed.phrase.sense === 'remove' && (deed.phrase.base !== 'put' || deed.phrase.particle === 'away')))
  );
}

/** "Pick up your tools", "lay the tools aside", "carry the tools away". */
export function putsToolsAway(deed: Deed): boolean {
  const { base, nouns, text } = deed.phrase;
  const verbs = ['pick', 'carry', 'set', 'lay', 'bring', 'stow', 'pack', 'clear', 'move'];
  return verbs.includes(base) && nouns.includes('tools') && /\b(?:away|aside|up|out|off)\b/.test(text.toLowerCase());
}
