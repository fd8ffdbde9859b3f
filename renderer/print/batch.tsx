/** Many documents written in one go by a second worker, with what came of each. It can be stopped between two of them. */
import { type ReactNode, useRef, useState } from 'react';
import { allFindings } from '../parts/findings.tsx';
import { longWorker } from '../state/long-worker.ts';
import { writeOut } from '../state/saving.ts';
import { say, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';

interface Outcome {
  readonly number: string;
  readonly text: string;
  readonly wrong: boolean;
}

/** `choice`: what the edition of each is beyond its file. */
export function Batch({ choice }: { readonly choice: Omit<Edition, 'file'> }): ReactNode {
  const { overview } = shown.usePick('overview');
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [done, setDone] = useState<readonly Outcome[]>([]);
  const [of, setOf] = useState(0);
  const stop = useRef(false);
  const documents = overview?.documents ?? [];
  const { model } = choice;
  // An edition for a model that the text is not for would be a book without its chapter.
  const hasEdition = ({ kind, models }: (typeof documents)[number]): boolean =>
    model === undefined || kind === 'guide' || models.includes(model);
  const wanted = documents.filter((one) => chosen.has(one.file) && hasEdition(one));
  const run = async (): Promise<void> => {
    stop.current = false;
    setOf(wanted.length);
    setDone([]);
    const { core, end } = await longWorker((message) => say(message, true));
    try {
      for (const { file, number } of wanted) {
        if (stop.current) break;
        const outcome = await one(core, file).catch((error: Error) => ({ text: error.message, wrong: true }));
        setDone((before) => [...before, { number, ...outcome }]);
      }
    } finally {
      end();
      setOf(0);
    }
  };
  const one = async (core: Awaited<ReturnType<typeof longWorker>>['core'], file: string): Promise<Omit<Outcome, 'number'>> => {
    const blocking = choice.draft ? [] : await core.ask('blocking', { file, findings: allFindings() });
    if (blocking && blocking.length > 0) return { text: words.refusedFor(blocking.length), wrong: true };
    const made = await core.ask('pdf', { file, ...choice });
    const path = made && (await writeOut(made.name, made.bytes));
    return made && path !== undefined
      ? { text: `${path}, ${words.pagesCount(made.pages)}`, wrong: false }
      : { text: words.notWritten, wrong: true };
  };
  return (
    <details className="batch">
      <summary>{words.several}</summary>
      <p>
        <button type="button" className="plain" onClick={() => setChosen(new Set(documents.filter(hasEdition).map(({ file }) => file)))}>
          {words.all}
        </button>{' '}
        <button type="button" className="plain" onClick={() => setChosen(new Set())}>
          {words.none}
        </button>
      </p>
      <ul>
        {documents.map((one) => (
          <li key={one.file}>
            <label className="tick">
              <input
                type="checkbox"
                disabled={!hasEdition(one)}
                checked={chosen.has(one.file) && hasEdition(one)}
                onChange={(event) => {
                  const next = new Set(chosen);
                  if (event.target.checked) next.add(one.file);
                  else next.delete(one.file);
                  setChosen(next);
                }}
              />{' '}
              <span className={hasEdition(one) ? '' : 'quiet'}>
                {one.number} {one.title}
                {hasEdition(one) ? '' : ` (${words.notFor(model ?? '')})`}
              </span>
            </label>
          </li>
        ))}
      </ul>
      <p>
        <button
          type="button"
          className="main"
          aria-disabled={of > 0 || wanted.length === 0}
          onClick={() => (of > 0 || wanted.length === 0 ? undefined : void run())}
        >
          {words.writeThem(wanted.length)}
        </button>{' '}
        {of > 0 ? (
          <button
            type="button"
            onClick={() => {
              stop.current = true;
            }}
          >
            {words.stop}
          </button>
        ) : null}
      </p>
      {of > 0 ? <progress aria-label={words.several} value={done.length} max={of} /> : null}
      <ul aria-live="polite">
        {done.map(({ number, text, wrong }) => (
          <li key={number} className={wrong ? 'wrong' : ''}>
            {number}: {text}
          </li>
        ))}
      </ul>
    </details>
  );
}
