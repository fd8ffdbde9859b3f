/** Files of the library that the host could not read: all of them, and until somebody has seen it, because nothing in them is checked. */
import type { ReactNode } from 'react';
import { shown } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';

/** Of one that was mended on disk meanwhile nothing is told any more; what is said of the whole library goes by its settings. */
const stillUnread = ({ path }: { readonly path: string }): boolean => path === 'library.yaml' || documents.get(path) === undefined;

export function UnreadBand(): ReactNode {
  const { refusals } = shown.usePick('refusals', 'overview');
  const unread = refusals.filter(stillUnread);
  if (unread.length === 0) return null;
  return (
    <div className="band-message" role="alert">
      <b>{words.unreadFiles(unread.length)}</b>{' '}
      <button type="button" onClick={() => shown.set({ refusals: [] })}>
        {words.dismiss}
      </button>
      <ul>
        {unread.map(({ path, message }) => (
          <li key={`${path} ${message}`}>
            {path}: {message}
          </li>
        ))}
      </ul>
    </div>
  );
}
