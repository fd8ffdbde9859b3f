/** Foot of the page: how much was found, what was done or went wrong, the cautions, the language. */
import type { ReactNode } from 'react';
import { setLanguage } from '../state/opening.ts';
import { shown } from '../state/shown.ts';
import { language, languages, words } from '../words/words.ts';
import { Counts } from './counts.tsx';
import { useLongChecking } from './long-checking.ts';

export function Foot(): ReactNode {
  return (
    <footer className="foot">
      <Counts />
      <Message />
      <Reading />
      <p className="cautions">{words.cautions}</p>
      <select aria-label="Language" value={language} onChange={(event) => void setLanguage(event.target.value)}>
        {languages.map((code) => (
          <option key={code} value={code}>
            {new Intl.DisplayNames([code], { type: 'language' }).of(code)}
          </option>
        ))}
      </select>
    </footer>
  );
}

function Message(): ReactNode {
  const { message } = shown.usePick('message');
  return (
    <p className={message?.wrong ? 'wrong' : ''} role="status">
      {message === undefined ? null : <span key={message.count}>{message.text}</span>}
      {message?.offer ? (
        <>
          {' '}
          <button type="button" onClick={message.offer.run}>
            {message.offer.label}
          </button>
        </>
      ) : null}
    </p>
  );
}

function Reading(): ReactNode {
  const { waiting } = shown.usePick('waiting');
  const long = useLongChecking();
  return <p className="quiet">{waiting > 0 ? words.stillReading(waiting) : long ? words.checking : ''}</p>;
}

/** For whoever listens to the page: what others see where it stands. */
export function Told(): ReactNode {
  const { told } = shown.usePick('told');
  return (
    <p className="heard" aria-live="polite">
      {told === undefined ? null : <span key={told.count}>{told.text}</span>}
    </p>
  );
}
