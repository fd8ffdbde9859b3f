/** Which documents are to be written in one go. What comes of them is told by the line over the foot. */
import type { ReactNode } from 'react';
import { useKept } from '../state/kept-state.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';
import { fitting } from '../write/shelves.ts';
import { writeAll, writing } from './writing.ts';

/** `choice`: what the edition of each is beyond its file. */
export function Batch({ choice }: { readonly choice: Omit<Edition, 'file'> }): ReactNode {
  const { overview } = shown.usePick('overview');
  const { running } = writing.usePick('running');
  const [chosen, setChosen] = useKept<ReadonlySet<string>>('several documents', NONE);
  const [open, setOpen] = useKept('several documents shown', false);
  const [sought, setSought] = useKept('several documents sought', '');
  const documents = overview?.documents ?? [];
  const shownHere = documents.filter(fitting(sought));
  const { model } = choice;
  // An edition for a model that the text is not for would be a book without its chapter.
  const hasEdition = ({ kind, models }: (typeof documents)[number]): boolean =>
    model === undefined || kind === 'guide' || models.includes(model);
  const wanted = documents.filter((one) => chosen.has(one.file) && hasEdition(one));
  const idle = running || wanted.length === 0;
  const run = (): void => void writeAll(wanted.map(({ file, number }) => ({ number, edition: { file, ...choice } })));
  return (
    <details className="batch" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.several}</summary>
      <p className="row">
        <input
          type="search"
          aria-label={words.filter}
          placeholder={words.filter}
          value={sought}
          onChange={(event) => setSought(event.target.value)}
        />
        {/* Of what is looked for; what was chosen before stays chosen. */}
        <button type="button" onClick={() => setChosen(new Set([...chosen, ...shownHere.filter(hasEdition).map(({ file }) => file)]))}>
          {words.all}
        </button>
        <button type="button" onClick={() => setChosen(new Set([...chosen].filter((file) => !shownHere.some((one) => one.file === file))))}>
          {words.none}
        </button>
      </p>
      <ul>
        {shownHere.map((one) => (
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
        <button type="button" className="main" aria-disabled={idle} onClick={idle ? undefined : run}>
          {words.writeThem(wanted.length)}
        </button>
      </p>
    </details>
  );
}

const NONE: ReadonlySet<string> = new Set();
