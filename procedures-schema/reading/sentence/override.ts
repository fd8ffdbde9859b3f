/** A reading that the writer says outright, as far as it may be said so. */
import type { Sentence, ThingUse } from '../action.ts';
import type { ReadingContext } from '../context.ts';
import { mayBeSaidOf, OVERRIDE_VERBS } from '../override-verbs.ts';
import { handsOn } from './orders.ts';
import type { Reader } from './reader.ts';

export function readOverride(
  reader: Reader,
  override: NonNullable<ReadingContext['override']>,
  mentions: readonly ThingUse[],
): Pick<Sentence, 'status' | 'actions'> & { why?: string } {
  const [verb = ''] = override.reads.toLowerCase().split(' ');
  const kind = Object.hasOwn(OVERRIDE_VERBS, verb) ? OVERRIDE_VERBS[verb]?.kind : undefined;
  const rest = override.reads.slice(verb.length).trim();
  const things =
    rest === ''
      ? []
      : reader.context.names
          .lookup(rest)
          .filter((thing) => mayBeSaidOf(verb, thing.kind))
          .slice(0, 1)
          .map((thing) => ({ thing, at: 0, end: 0 }));
  // A lock, a try-out or clear people can never be asserted this way (F14).
  if (!kind || (rest !== '' && things.length === 0))
    return { status: 'unread', actions: [], why: `"${override.reads}" is no reading that can be said outright` };
  const used = things.length > 0 ? things : mentions.slice(0, 1);
  // A tool cannot be isolated: read so, the step would count as an instruction that does nothing.
  if (verb !== 'nothing' && !used.every(({ thing }) => mayBeSaidOf(verb, thing.kind)))
    return { status: 'unread', actions: [], why: `"${override.reads}" cannot be said of ${used.map(({ thing }) => thing.name).join()}` };
  return {
    status: 'read',
    actions:
      verb === 'nothing'
        ? []
        : [
            {
              kind,
              things: used,
              with: [],
              contact: handsOn(kind),
              outside: false,
              amounts: [],
              when: [],
              at: 0,
              end: reader.prose.text.length,
            },
          ],
  };
}
