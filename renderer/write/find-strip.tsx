/** A strip at the head of the sheet: finds and replaces in the text that is open. What it does goes through the journal of edits like all else. */
import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react';
import type { FoundTexts } from '../../procedures-schema/assist/index.ts';
import { useAnswer } from '../state/answer.ts';
import { openPanel } from '../state/panel.ts';
import { say, shown } from '../state/shown.ts';
import { hitAt, type Sought, showHit, sought, stopLooking, toHit } from '../state/sought.ts';
import { applyProposed, change, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

/** Hits worth counting in one text. */
const MOST = 9999;

const askOf = ({ query, matchCase, wholeWord }: Sought, file: string) => ({
  query,
  matchCase,
  wholeWord,
  pattern: false,
  file,
  most: MOST,
});

const take = (answer: FoundTexts): void => {
  if (answer.ok) sought.set({ found: answer.files.flatMap(({ found }) => found.map(({ span }) => span)), more: answer.more });
};

/** The first hit from where looking began. */
function showFirst(): void {
  const { found, from } = sought.get();
  const hit = found.find(({ start }) => start >= from) ?? found[0];
  if (hit) showHit(hit);
}

async function replaceOne(file: string): Promise<void> {
  const { found, by } = sought.get();
  const hit = found[hitAt(found, shown.get().caret)];
  if (!hit) return toHit('next');
  const made = await core.ask('replace', { ...askOf(sought.get(), file), by, only: hit.start });
  if (!made.ok) return say(made.reason, true);
  change(
    made.title,
    made.files.map(({ file: path, edits }) => ({ path, edits })),
  );
  take(await core.ask('find', askOf(sought.get(), file)));
  sought.set({ from: hit.start + by.length });
  showFirst();
}

async function replaceAll(file: string): Promise<void> {
  const made = await core.ask('replace', { ...askOf(sought.get(), file), by: sought.get().by });
  if (made.ok) applyProposed(made.title, made.files);
  else say(made.reason, true);
}

export function FindStrip(): ReactNode {
  const { open, count } = sought.usePick('open', 'count');
  const { file } = shown.usePick('file');
  return open && file !== undefined ? <Strip file={file} count={count} /> : null;
}

function Strip({ file, count }: { readonly file: string; readonly count: number }): ReactNode {
  const own = sought.use();
  const { query, by, replacing, found, more } = own;
  const { caret } = shown.usePick('caret');
  const field = useRef<HTMLInputElement>(null);
  const answer = useAnswer('find', query === '' ? undefined : askOf(own, file));
  // What was asked when a hit was shown last: an edit elsewhere in the text must not lead away from it.
  const led = useRef('');
  const lead = JSON.stringify([query, own.matchCase, own.wholeWord, count]);
  // Places in one text mean nothing in another.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each time another text is shown
  useEffect(() => sought.set({ found: [], more: false }), [file]);
  useEffect(() => {
    if (query === '') return sought.set({ found: [], more: false });
    if (answer === undefined) return;
    take(answer);
    if (led.current === lead) return;
    led.current = lead;
    showFirst();
  }, [answer, query, lead]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each time it is asked for
  useEffect(() => field.current?.select(), [count]);
  const at = hitAt(found, caret);
  const tick = (key: 'matchCase' | 'wholeWord') => (
    <label className="tick">
      <input type="checkbox" checked={own[key]} onChange={(event) => sought.set({ [key]: event.target.checked })} /> {words[key]}
    </label>
  );
  const enter = (deed: (event: KeyboardEvent) => void) => (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    deed(event);
  };
  const none = found.length === 0;
  return (
    <search
      className="find-strip"
      aria-label={words.findHere}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        stopLooking();
      }}
    >
      <div className="row">
        <input
          ref={field}
          type="search"
          aria-label={words.findHere}
          placeholder={words.findHere}
          value={query}
          onChange={(event) => sought.set({ query: event.target.value })}
          onKeyDown={enter(({ shiftKey }) => toHit(shiftKey ? 'previous' : 'next'))}
        />
        <button type="button" disabled={none} aria-label={words.findPrevious} title={words.findPrevious} onClick={() => toHit('previous')}>
          ‹
        </button>
        <button type="button" disabled={none} aria-label={words.findNext} title={words.findNext} onClick={() => toHit('next')}>
          ›
        </button>
        <output className={query !== '' && answer !== undefined && none ? 'wrong' : ''}>{told(query, found.length, at, more)}</output>
        {tick('matchCase')} {tick('wholeWord')}
        <button type="button" onClick={stopLooking}>
          {words.close}
        </button>
      </div>
      <div className="row">
        {replacing ? (
          <>
            <input
              type="text"
              aria-label={words.replaceBy}
              placeholder={words.replaceBy}
              value={by}
              onChange={(event) => sought.set({ by: event.target.value })}
              onKeyDown={enter(() => void replaceOne(file))}
            />
            <button type="button" disabled={none} onClick={() => void replaceOne(file)}>
              {words.replaceThis}
            </button>
            <button type="button" disabled={none} onClick={() => void replaceAll(file)}>
              {words.replaceAll}
            </button>
          </>
        ) : (
          <button type="button" className="plain" onClick={() => sought.set({ replacing: true })}>
            {words.replaceHere} …
          </button>
        )}
        <button type="button" className="plain" onClick={() => openPanel('find')}>
          {words.find} …
        </button>
      </div>
    </search>
  );
}

function told(query: string, count: number, at: number, more: boolean): string {
  if (query === '') return '';
  if (count === 0) return words.foundNone;
  const of = more ? `${count}+` : String(count);
  return at < 0 ? words.foundCount(count, of) : words.foundOf(at + 1, of);
}
