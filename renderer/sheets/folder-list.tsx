/** Folders to choose one from, where the system offers no dialog: below the user's own folder, one level at a time. */
import { type ReactNode, useEffect, useState } from 'react';
import { call } from '../host.ts';
import { say } from '../state/shown.ts';
import { words } from '../words/words.ts';

interface Props {
  /** Any folder may hold a new library; only a library can be opened. */
  readonly create: boolean;
  readonly take: (folder: string) => void;
}

type Listed = Awaited<ReturnType<typeof list>>;
const list = (folder: string | undefined) => call('folder.list', folder === undefined ? {} : { folder });

export function FolderList({ create, take }: Props): ReactNode {
  const [at, setAt] = useState<string>();
  const [listed, setListed] = useState<Listed>();
  useEffect(() => {
    list(at).then(setListed, (error: Error) => say(error.message, true));
  }, [at]);
  if (!listed) return <p className="quiet">{words.checking}</p>;
  return (
    <div className="folder-list">
      <p className="row">
        {listed.folder === undefined ? (
          <span className="quiet">{create ? words.goWhereItShallLie : words.goWhereItLies}</span>
        ) : (
          <b>{listed.folder}</b>
        )}
        {/* From where the list began it goes back to all beginnings. */}
        {listed.folder === undefined ? null : (
          <button type="button" onClick={() => setAt(listed.parent)}>
            {words.up}
          </button>
        )}
        {create && listed.folder !== undefined ? (
          <button type="button" className="main" onClick={() => take(listed.folder as string)}>
            {words.createHere}
          </button>
        ) : null}
      </p>
      <ul className="folders">
        {listed.folders.map(({ folder, name, library }) => (
          <li key={folder}>
            <button type="button" className="plain" onClick={() => setAt(folder)}>
              {name}
            </button>{' '}
            {listed.folder === undefined ? <span className="quiet">{folder} </span> : null}
            {library && !create ? (
              <button type="button" className="main" onClick={() => take(folder)}>
                {words.open}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  );
}
