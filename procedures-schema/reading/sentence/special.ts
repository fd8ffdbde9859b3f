/** Orders about order: where to go, what to repeat, whom to call, when to stop. */
import type { Action, ActionKind, ThingUse } from '../action.ts';
import { type Around, atMost, classify } from '../classify/index.ts';
import type { Item } from '../items.ts';
import type { Phrase } from '../phrase.ts';
import { targetIn } from '../targets.ts';
import { TOUCHED } from '../touched.ts';
import { type Reader, wordsOf } from './reader.ts';

const touched = ({ thing }: ThingUse): boolean => TOUCHED.has(thing.kind);

/** A phrase read for itself, whatever stands around it. */
export const ALONE: Around = {
  it: [],
  them: [],
  hangs: false,
  point: undefined,
  only: undefined,
  result: undefined,
  proving: false,
  testRun: false,
  known: false,
  outside: false,
  stage: undefined,
  manner: undefined,
};

/** Orders about order: where to go, what to repeat, whom to call, when to stop. */
export function specialOrder(
  reader: Reader,
  phrase: Phrase,
  items: readonly Item[],
  text: string,
): { actions: readonly Action[] } | { why: string } | undefined {
  const { tables, context } = reader;
  const words = wordsOf(reader, items);
  const first = items[0] as Item;
  const found = targetIn(items, words, first.at, context);
  const lower = words.toLowerCase();
  const make = (kind: ActionKind, more: Partial<Action> = {}): { actions: readonly Action[] } => ({
    actions: [
      {
        kind,
        things: [],
        with: [],
        contact: false,
        outside: false,
        amounts: phrase.amounts.map(({ text: amount, at, end }) => ({ text: amount, at, end })),
        when: [],
        at: phrase.at,
        end: phrase.end,
        ...more,
      },
    ],
  });
  const target = found ? { target: found.target } : {};
  const reverse = tables.lexicon.reverse.some((one) => lower.includes(one));
  // "renew the seal as in [Renew the seal]": the words name the work, the call does it.
  const called =
    found &&
    tables.lexicon.callWords.some((one) => ` ${lower} `.includes(` ${one} `)) &&
    !['see', 'go', 'repeat', 'continue'].includes(phrase.sense);
  if (called && found && phrase.sense !== 'do') {
    const own = classify({ ...phrase, unknown: [] }, ALONE, reader.equipment, tables);
    return { actions: ['actions' in own ? own.actions : [], make('call', target).actions].flat() };
  }
  if (reverse) return make('reverse', { ...target, things: phrase.objects, manner: 'reverse order' });
  if (reader.tables.lexicon.sayings.clears.test(lower)) return make('clear-people');
  switch (phrase.sense) {
    case 'start':
      // "Start again from step 2."
      return found && phrase.objects.length === 0 && phrase.nouns.length === 0 ? make('go-to', target) : undefined;
    case 'go':
      if (/^go (?:by|no further)\b/.test(lower)) return { actions: [] };
      if (phrase.base === 'return' && phrase.nouns.includes('tools')) return make('take-tools');
      if (phrase.base === 'return' && phrase.objects.length > 0)
        return classify({ ...phrase, sense: 'set' }, ALONE, reader.equipment, tables);
      return found ? make('go-to', target) : { why: `"${words}" does not say where to` };
    case 'continue':
      // "Continue wiping the scraper."
      if (!found && (phrase.unknown.length + phrase.objects.length > 0 || phrase.places.some(({ uses }) => uses.some(touched))))
        return { why: `"${words}" does not say where to` };
      if (!found) return { actions: [] };
      return found.target.kind === 'document' ? make('continue-with', target) : make('go-to', target);
    case 'repeat':
      return found
        ? make('repeat', { ...target, ...(/\bfrom\b/.test(lower) ? { manner: 'from' } : {}) })
        : { why: `"${words}" does not say which steps` };
    case 'see': {
      if (found) return make('refer', target);
      // "See with the thermometer that the plate is below 40 °C": read by it.
      const held = items.flatMap((item) =>
        item.kind === 'name' && item.things[0]?.kind === 'tool' && reader.equipment.tool(item.things[0].name)?.contact
          ? [{ thing: item.things[0], at: item.at, end: item.end }]
          : [],
      );
      const shows = /\bthat\b.*(?:\b(?:below|under|less than|no|zero)\b|\b0(?![.\d]))/.test(lower);
      return held.length > 0 && shows ? make('prove', { with: held, contact: true, result: words }) : undefined;
    }
    case 'do': {
      if (found) return make('call', target);
      if (phrase.nouns.includes('test') || /\btest\b/.test(lower))
        return make(
          tables.lexicon.testRun.some((one) => lower.includes(one)) || /\bwith the \w+(?: \w+)? (?:off|open)\b/.test(lower)
            ? 'test-run'
            : 'sense',
          { things: phrase.objects },
        );
      // "Do the same on the other side": nothing that was not done just now, in this very step. On another thing it would be something else.
      const places = items.every((item) => item.kind !== 'name' || item.things.every(({ kind }) => kind === 'zone'));
      if (/^do (?:this|that|it|the same)\b.*\b(?:sides?|ends?|others?|each|both|all|again)\b/.test(lower) && first.at > 0 && places)
        return { actions: [] };
      return { why: `"${words}" does not say what to do` };
    }
    case 'have':
      if (phrase.nouns.includes('people') && /\b(?:out|away|clear|back)\b/.test(lower)) return make('clear-people');
      // "Ask the owner"; what is asked to be done has to be read.
      return phrase.base === 'ask' && phrase.objects.length === 0 && !/\bask\b.*\bto\b/i.test(text) ? { actions: [] } : undefined;
    case 'call':
      // "Call everyone to the machine."
      if (phrase.nouns.includes('people') && phrase.places.some(({ preposition }) => ['to', 'into', 'onto', 'over'].includes(preposition)))
        return { why: `"${words}" brings people to the machine` };
      return make('stop-and-call');
    case 'stop':
      if (phrase.nouns.includes('work')) return make('stop-and-call');
      if (phrase.objects.length === 0 && phrase.nouns.length === 0 && /\bstop(?: here)? and (?:tell|inform|report)\b/i.test(text))
        return make('stop-and-call');
      // "Stop and call the works office."
      return phrase.objects.length === 0 &&
        phrase.nouns.length === 0 &&
        /\bstop(?: work)?(?: here)? and (?:call|ask|phone|contact)\b/i.test(text)
        ? { actions: [] }
        : undefined;
    case 'finish':
      return make('end');
    case 'declare':
      return /\bout of (?:service|use)\b/.test(lower) ? make('out-of-service') : undefined;
    case 'make':
      if (/^make (?:sure|certain)\b/.test(lower)) return { actions: [] };
      if (tables.lexicon.testRun.some((one) => lower.includes(one))) return make('test-run');
      return undefined;
    case 'remove':
      return /\bout of (?:service|use)\b/.test(lower) ? make('out-of-service') : undefined;
    case 'wait':
      if (phrase.base !== 'allow' && phrase.base !== 'let') return undefined;
      if (/\bknow\b/.test(lower)) return make('tell');
      // "Let the air out through the valve."
      if (/\bout\b/.test(lower) && phrase.objects.some(({ thing }) => thing.kind === 'source'))
        return classify({ ...phrase, sense: 'bleed' }, ALONE, reader.equipment, tables);
      if (/\b(?:settle|rise|sink)\w*\b/.test(lower)) return make('wait');
      return /\b(?:cool|settle|drain|dry|rest|warm|stand|slow|discharge|coast|sink|idle|run|(?:run|spin|wind) (?:down|out|dry|empty)|come to)\w*\b/.test(
        lower,
      ) && phrase.amounts.length + (/\buntil\b/i.test(text) ? 1 : 0) > 0
        ? make('wait', { things: [], ...(atMost(lower) ? { amounts: [] } : {}) })
        : // "Let the wheel run down": nothing says for how long, so it shows nothing and is a wait all the same.
          /\b(?:run|spin|wind|coast) down\b|\bcome to rest\b/.test(lower)
          ? make('wait')
          : /\brun (?:out|dry|empty)\b/.test(lower)
            ? { actions: [] }
            : { why: `"${words}" could not be read` };
    case 'confirm':
    case 'check':
      return phrase.sense === 'confirm' || /\b(?:that|whether|if)\b/.test(lower) ? { actions: [] } : undefined;
    case 'leave':
    case 'use':
      return undefined;
    default:
      return undefined;
  }
}

/** A verb nobody listed, but a section that says what is done. */
export function calledBy(reader: Reader, main: readonly Item[]): Action | undefined {
  const words = wordsOf(reader, main);
  const first = main[0];
  if (!first || !reader.tables.lexicon.callWords.some((one) => ` ${words.toLowerCase()} `.includes(` ${one} `))) return undefined;
  const found = targetIn(main, words, first.at, reader.context);
  const last = main[main.length - 1] as Item;
  return (
    found && {
      kind: 'call',
      things: [],
      with: [],
      contact: false,
      outside: false,
      amounts: [],
      when: [],
      target: found.target,
      at: first.at,
      end: last.end,
    }
  );
}
