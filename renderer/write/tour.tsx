/** The first minute, in the page itself: a flaw is planted, its counter-walk shown, it is mended, and the printed page looked at. Each is one click. */
import { type ReactNode, useState } from 'react';
import { reviewing } from '../review/reviewing.ts';
import { putSetting, setting } from '../state/settings.ts';
import { goTo, say, shown } from '../state/shown.ts';
import { newStore } from '../state/store.ts';
import { undo } from '../state/undoing.ts';
import { change, core, documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export const touring = newStore({ at: setting('tour') === 'seen' ? -1 : 0 });

export function startTour(): void {
  if (shown.get().overview?.documents.length === 0) return say(words.tourNothing, true);
  touring.set({ at: 0 });
  shown.set({ view: 'write' });
}

/** Where the flaw was planted, so that it is looked at and taken back and nothing else is. */
let planted: { readonly file: string; readonly offset: number; readonly text: string } | undefined;

/** Takes the first step out that puts a lock on. */
async function plant(): Promise<boolean> {
  const found = await core.ask('find', { query: 'Put your lock and tag on', pattern: false, matchCase: true, wholeWord: false });
  const [first] = found.ok ? found.files.filter(({ file }) => file.startsWith('procedures/')) : [];
  const [hit] = first?.found ?? [];
  if (!first || !hit) {
    say(words.tourNothing, true);
    return false;
  }
  const { text } = documents.get(first.file) ?? { text: '' };
  const start = text.lastIndexOf('\n', hit.span.start - 1) + 1;
  const end = text.indexOf('\n', hit.span.start) + 1;
  planted = { file: first.file, offset: start, text };
  change(words.tourDo[0] as string, [{ path: first.file, edits: [{ start, end, text: '' }] }]);
  goTo(first.file, start);
  return true;
}

/** Undo only while nothing else was done since. */
function mend(): void {
  if (!planted) return;
  if (documents.next.undo === words.tourDo[0]) undo();
  const now = documents.get(planted.file)?.text ?? '';
  if (now !== planted.text)
    change(words.tourDo[2] as string, [{ path: planted.file, edits: [{ start: 0, end: now.length, text: planted.text }] }]);
  goTo(planted.file, planted.offset);
}

const DO: readonly (() => boolean | Promise<boolean>)[] = [
  plant,
  () => {
    reviewing.set({ sheet: 'findings' });
    shown.set({ view: 'review' });
    return true;
  },
  () => {
    mend();
    return true;
  },
  () => {
    shown.set({ view: 'print' });
    return true;
  },
];

interface Props {
  readonly line?: boolean;
  /** It may begin here. */
  readonly first?: boolean;
}

/** Shown at the side of Write where there is room, else as a line above it; and as a line above the other views while it goes on. */
export function Tour({ line = false, first = !line }: Props): ReactNode {
  const { at } = touring.use();
  const { overview } = shown.usePick('overview');
  const [busy, setBusy] = useState(false);
  // In a library with no procedure there is nothing to take a lock out of.
  if (at === 0 && overview?.documents.length === 0) return null;
  if (at < 0 || (at === 0 && !first)) return null;
  const end = (): void => {
    void putSetting('tour', 'seen');
    touring.set({ at: -1 });
  };
  const next = async (): Promise<void> => {
    setBusy(true);
    const went = await DO[at]?.();
    setBusy(false);
    if (went) touring.set({ at: at + 1 });
  };
  return (
    <section className={line ? 'tour tour-line' : 'tour'} aria-label={words.tourTitle}>
      {line ? null : <h2>{words.tourTitle}</h2>}
      <p aria-live="polite">{words.tour[at]}</p>
      <p>
        {at < DO.length ? (
          <button type="button" className="main" disabled={busy} onClick={() => void next()}>
            {words.tourDo[at]}
          </button>
        ) : null}{' '}
        <button type="button" onClick={end}>
          {at < DO.length ? words.tourSkip : words.tourEnd}
        </button>
      </p>
    </section>
  );
}
