/** Locks and tags: where they go and where they come off. A lock whose point is not said is none. */
import type { ActionKind, ThingUse } from '../action.ts';
import { actionOf, type Classified, cannot, type Deed } from './deed.ts';

/** Where a lock hangs that holds nothing. */
const AWAY: ReadonlySet<string> = new Set(['beside', 'near', 'under', 'underneath', 'behind', 'above', 'below', 'by', 'past', 'from']);

/** Manner of taking off locks without a word of where they are: from every point that carries one. */
export const WHEREVER = 'wherever it is';

/** The reason given when a lock has no point: bullets may name them. */
export const NO_POINT = 'it is not said what the lock goes on';

export function locksNamed(deed: Deed): boolean {
  const { phrase } = deed;
  const senses = ['put', 'fit', 'apply', 'remove', 'in', 'keep', 'handle', 'leave', 'unlock'];
  if (!senses.includes(phrase.sense) && !['secure', 'fix'].includes(phrase.base)) return false;
  return lockKinds(deed).length > 0;
}

function lockKinds(deed: Deed): ('lock' | 'tag')[] {
  const { phrase } = deed;
  const out: ('lock' | 'tag')[] = [];
  const all = phrase.base === 'secure' ? phrase.places.flatMap((place) => [...place.nouns]) : phrase.nouns;
  for (const kind of ['lock', 'tag'] as const) {
    const tool = (phrase.base === 'secure' ? deed.tools : phrase.objects).some((use) => toolKind(deed, use) === kind);
    if (all.includes(kind) || tool) out.push(kind);
  }
  return out;
}

function toolKind(deed: Deed, use: ThingUse): string | undefined {
  return use.thing.kind === 'tool' ? deed.equipment.tool(use.thing.name)?.kind : undefined;
}

/** Locks and tags as objects: "put your lock and tag on the isolator", "take the lock off". */
export function putLocks(deed: Deed): Classified | undefined {
  const { phrase } = deed;
  const kinds = lockKinds(deed);
  const points = [...phrase.places.flatMap((place) => [...place.uses]), ...phrase.objects].filter(
    (use) => use.thing.kind === 'point' || use.thing.kind === 'control',
  );
  const off = phrase.sense === 'remove' || phrase.sense === 'unlock';
  // "On each:" waits for the points below.
  const hangs = deed.around.hangs || /\b(?:each|every|these)\b/.test(phrase.text.toLowerCase());
  const pronoun = phrase.places.some((place) => place.pronoun) || ((phrase.base === 'secure' || !hangs) && phrase.pronoun);
  const many = phrase.many || phrase.places.some((place) => / each\b| both\b| all\b| them\b/.test(place.text));
  // "Turn the switch off. Put on your lock.": what was moved last, if it was a point.
  const last = deed.around.it.slice(-1).filter((use) => use.thing.kind === 'point');
  const on =
    points.length > 0
      ? points
      : pronoun && many && deed.around.it.length < 2 && deed.around.them.length > 1
        ? deed.around.them
        : pronoun && deed.around.it.length > 0
          ? many
            ? deed.around.it
            : deed.around.it.slice(-1)
          : deed.around.point
            ? [deed.around.point]
            : deed.around.only
              ? [deed.around.only]
              : !pronoun && !off && !hangs
                ? last
                : [];
  if (phrase.sense === 'keep' || phrase.sense === 'leave') return { actions: [] };
  // "Your lock on the switch and your tag on the valve": what goes where.
  const lockOrTag = (use: ThingUse): boolean => ['lock', 'tag'].includes(toolKind(deed, use) ?? '');
  const apart = phrase.places.some(
    ({ uses, nouns }) =>
      uses.some(({ thing }) => thing.kind === 'point') && (uses.some(lockOrTag) || nouns.some((noun) => noun === 'lock' || noun === 'tag')),
  );
  const point = phrase.objects.findIndex(({ thing }) => thing.kind === 'point');
  const behind = point >= 0 && phrase.objects.slice(point).some(lockOrTag) && phrase.places.some((place) => place.uses.length > 0);
  if ((apart || behind) && phrase.base !== 'secure') return cannot(deed);
  // "Take off the locks and tags.": wherever they are.
  if (off && !hangs && on.length === 0 && !pronoun && phrase.unknown.length === 0 && phrase.places.length === 0) {
    const everywhere = deed.equipment.lockable().map((thing): ThingUse => ({ thing, at: phrase.at, end: phrase.end }));
    return {
      actions: kinds.map((kind) => actionOf(deed, kind === 'lock' ? 'unlock' : 'untag', everywhere, { contact: false, manner: WHEREVER })),
    };
  }
  if (on.length === 0) return cannot(deed, NO_POINT);
  if (on.some((use) => use.thing.kind !== 'point' && use.thing.kind !== 'control')) return cannot(deed);
  // "beside the isolator", "on the door near the isolator", "open in its eye": it holds nothing.
  const aside = phrase.places.some(({ preposition, uses }) => AWAY.has(preposition) && uses.some(({ thing }) => thing.kind === 'point'));
  if (
    !off &&
    (aside || /\b(?:next|close) to\b/i.test(phrase.text) || /\b(?:un|re)?locks?(?: and tags?)? (?:open|loosely)\b/i.test(phrase.text))
  )
    return cannot(deed);
  if (phrase.unknown.length > 0) return cannot(deed);
  return { actions: kinds.map((kind) => actionOf(deed, off ? (kind === 'lock' ? 'unlock' : 'untag') : kind, on, { contact: false })) };
}

export function lockThings(deed: Deed): Classified {
  const { phrase } = deed;
  const points = deed.objects.filter((use) => use.thing.kind === 'point' || use.thing.kind === 'control');
  // "Lock and tag both": the points that were moved just now.
  const both = phrase.pronoun && phrase.many && phrase.objects.length === 0 && deed.around.it.length < 2 ? deed.around.them : [];
  if (both.length > 1 && phrase.unknown.length === 0) {
    const every: ActionKind[] = phrase.sense === 'lock-and-tag' ? ['lock', 'tag'] : [phrase.sense as ActionKind];
    return { actions: every.map((kind) => actionOf(deed, kind, both, { contact: false })) };
  }
  const on =
    points.length > 0 ? points : deed.objects.length === 0 && phrase.unknown.length === 0 && deed.around.point ? [deed.around.point] : [];
  if (on.length === 0 || on.length < deed.objects.length || phrase.unknown.length > 0) return cannot(deed);
  // "Lock the valve shut": the position is said, the lock holds it. "Lock it in the on position" holds it live.
  const said = phrase.position ?? /\bin (?:the |its )?["“]?(\w+)["”]?(?: position)?\b/i.exec(phrase.text)?.[1]?.toLowerCase();
  const held =
    said !== undefined && deed.tables.positions.has(said) ? on.map((use) => deed.equipment.move(use.thing.name, said)?.kind) : [];
  if (held.some((kind) => kind === 'restore' || kind === 'unrelieve' || kind === 'release')) return cannot(deed);
  const kinds: ActionKind[] = phrase.sense === 'lock-and-tag' ? ['lock', 'tag'] : [phrase.sense as ActionKind];
  return { actions: kinds.map((kind) => actionOf(deed, kind, on, { contact: false })) };
}
