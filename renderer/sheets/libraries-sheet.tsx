/** Another library: those opened lately, the sample, one from a folder, or a new one. Unsaved text of this one stays in its journal. */
import { type ReactNode, useEffect, useState } from 'react';
import { call } from '../host.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { switchLibrary } from '../state/opening.ts';
import { say, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { FolderList } from './folder-list.tsx';

type Recent = Awaited<ReturnType<typeof recentOnes>>;
const recentOnes = () => call('libraries.recent', {});

export function LibrariesSheet(): ReactNode {
  const { folder: here } = shown.usePick('folder');
  const [known, setKnown] = useState<Recent>();
  const [choosing, setChoosing] = useState<'open' | 'create'>();
  const [name, setName] = useState('');
  const [publisher, setPublisher] = useState('');
  const read = (): void => void recentOnes().then(setKnown, wrong);
  useEffect(read, []);
  const take = async (folder: string): Promise<void> => {
    try {
      if (choosing === 'create') await switchLibrary((await call('library.create', { folder, name, publisher })).folder);
      else await switchLibrary(folder);
    } catch (error) {
      wrong(error as Error);
    }
  };
  /** The system's own dialog where there is one, else a list of folders in this sheet. */
  const choose = async (what: 'open' | 'create'): Promise<void> => {
    setChoosing(what);
    if (known?.chooser !== 'system') return;
    const { folder } = await call('folder.choose', { title: words.chooseFolder });
    if (folder === undefined) setChoosing(undefined);
    else await take(folder);
  };
  return (
    <OverSheet title={words.otherLibrary}>
      <h3>{words.recent}</h3>
      <ul className="folders">
        {known?.recent.map((one) => (
          <li key={one.folder}>
            <button
              type="button"
              className="plain"
              disabled={!one.there || one.folder === here}
              onClick={() => void switchLibrary(one.folder)}
            >
              {one.name}
            </button>{' '}
            <span className="quiet">
              {one.folder} {one.there ? '' : words.notThere}
            </span>{' '}
            <button
              type="button"
              aria-label={`${words.forget} ${one.name}`}
              onClick={() => void call('libraries.forget', { folder: one.folder }).then(read, wrong)}
            >
              −
            </button>
          </li>
        ))}
        {known ? (
          <li>
            <button type="button" className="plain" disabled={known.sample === here} onClick={() => void switchLibrary(known.sample)}>
              {words.sampleLibrary}
            </button>
          </li>
        ) : null}
      </ul>
      <div className="row">
        <button type="button" onClick={() => void choose('open')}>
          {words.openFolder} …
        </button>
      </div>
      <h3>{words.newLibrary}</h3>
      <div className="row">
        <input
          aria-label={words.libraryName}
          placeholder={words.libraryName}
          value={name}
          onChange={(event) => setName(event.target.value)}
        />
        <input
          aria-label={words.publisher}
          placeholder={words.publisher}
          value={publisher}
          onChange={(event) => setPublisher(event.target.value)}
        />
        <button type="button" disabled={name.trim() === '' || publisher.trim() === ''} onClick={() => void choose('create')}>
          {words.chooseFolder} …
        </button>
      </div>
      {choosing !== undefined && known?.chooser === 'page' ? (
        <FolderList create={choosing === 'create'} take={(folder) => void take(folder)} />
      ) : null}
    </OverSheet>
  );
}

const wrong = (error: Error): void => say(error.message, true);
