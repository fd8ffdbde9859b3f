/** What to write instead of a word that is in no dictionary and no register: chosen and written by one key or one click. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { focusFirstButton, listKeys } from '../parts/list-keys.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { suggestions } from '../spelling/spelling.ts';
import { closePanel, panel } from '../state/panel.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { writeInstead } from '../write/spelling-here.ts';

export function SpellingSheet(): ReactNode {
  const { file } = shown.usePick('file');
  const { misspelt } = panel.use();
  const [near, setNear] = useState<{ readonly of: string; readonly words: readonly string[] }>();
  const list = useRef<HTMLUListElement>(null);
  const word = misspelt?.word ?? '';
  useEffect(() => {
    if (word !== '') void suggestions(word).then((found) => setNear({ of: word, words: found }));
  }, [word]);
  const known = near?.of === word ? near.words : undefined;
  // Each time other words are offered.
  useEffect(() => {
    if (known !== undefined) focusFirstButton(list.current);
  }, [known]);
  const take = (own: string): void => {
    if (file === undefined || misspelt === undefined) return;
    const done = writeInstead(file, misspelt, own);
    closePanel();
    if (done) goTo(file, misspelt.start + own.length);
  };
  return (
    <OverSheet title={`${words.spellingOf}: ${word}`}>
      <p>{known?.length === 0 ? words.misspeltNone : words.misspelt}</p>
      <ul ref={list} className="choices" onKeyDown={listKeys}>
        {known?.map((own) => (
          <li key={own}>
            <button type="button" onClick={() => take(own)}>
              {own}
            </button>
          </li>
        ))}
      </ul>
    </OverSheet>
  );
}
