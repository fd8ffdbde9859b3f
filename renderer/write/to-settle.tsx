/** A name that no register knows: the near ones to take instead, and the registers it may be written into, each one click. */
import type { ReactNode } from 'react';
import type { NameToSettle } from '../../procedures-schema/assist/index.ts';
import { registerName, takeName } from '../state/margin-deeds.ts';
import { words } from '../words/words.ts';

/** Beside a line more than these would be a list to search, not an offer. */
const OFFERS = 3;

interface Props {
  readonly name: NameToSettle;
  readonly file: string;
  /** Every register it may be written into, where there is room for them. */
  readonly whole?: boolean;
  readonly settled?: () => void;
}

export function ToSettle({ name, file, whole = false, settled }: Props): ReactNode {
  const offers = whole ? Number.POSITIVE_INFINITY : OFFERS;
  return (
    // Named, because whoever comes to its buttons one by one must hear which name they are about.
    <section className={whole ? 'settle settle-whole' : 'settle'} aria-label={`${words.settle}: ${name.name}`}>
      <span>
        {words.settle}: <b>{name.name}</b>
      </span>
      {name.nearest.slice(0, offers).map((near) => (
        <button key={near} type="button" className="plain" onClick={() => takeName(name, file, near) && settled?.()}>
          {words.write1} {near}
        </button>
      ))}
      {name.guesses.slice(0, offers).map((guess) => (
        <button
          key={`${guess.kind}${guess.family ?? ''}`}
          type="button"
          className="plain"
          onClick={() => void registerName(name.name, guess).then((done) => done && settled?.())}
        >
          {words.registerAs} {guess.words}
        </button>
      ))}
    </section>
  );
}
