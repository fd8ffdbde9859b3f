/** A name that no register knows: the near ones to take instead, and the registers it may be written into, each one click. */
import type { ReactNode } from 'react';
import type { KindGuess, NameToSettle } from '../../procedures-schema/assist/index.ts';
import { say } from '../state/shown.ts';
import { applyProposed, change, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

/** More than these would be a list to search, not an offer. */
const OFFERS = 3;

export function ToSettle({ name, file }: { readonly name: NameToSettle; readonly file: string }): ReactNode {
  const take = (near: string): void => {
    const text = name.inBrackets ? `[${near}]` : near;
    change(`${name.name}: ${near}`, [{ path: file, edits: [{ start: name.span.start, end: name.span.end, text }] }]);
  };
  const register = async (guess: KindGuess): Promise<void> => {
    const made = await core.ask('registerName', { name: name.name, guess });
    if (made.ok) applyProposed(made.title, made.files);
    else say(made.reason, true);
  };
  return (
    <p className="settle">
      {words.settle}: <b>{name.name}</b>
      {name.nearest.slice(0, OFFERS).map((near) => (
        <button key={near} type="button" className="plain" onClick={() => take(near)}>
          {words.write1} {near}
        </button>
      ))}
      {name.guesses.slice(0, OFFERS).map((guess) => (
        <button key={`${guess.kind}${guess.family ?? ''}`} type="button" className="plain" onClick={() => void register(guess)}>
          {words.registerAs} {guess.words}
        </button>
      ))}
    </p>
  );
}
