/** The file of a procedure or guide: another name for it, or its removal, with what would then lead nowhere. */
import { type ReactNode, useState } from 'react';
import { recordPath } from '../../procedures-schema/review/index.ts';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { nameOf, usePlaces } from '../parts/place.tsx';
import { useAnswer } from '../state/answer.ts';
import { isOwnFile, removeText, renameText } from '../state/files.ts';
import { closePanel } from '../state/panel.ts';
import { goTo, shown } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function FileSheet(): ReactNode {
  // Of the file it was opened for, also while its places are looked at.
  const [file] = useState(shown.get().file);
  if (!isOwnFile(file) || !documents.get(file)) return <OverSheet title={words.fileOfText}>{words.onlyProcedures}</OverSheet>;
  return <FileOf file={file} />;
}

function FileOf({ file }: { readonly file: string }): ReactNode {
  const { waiting, overview } = shown.usePick('waiting', 'overview');
  const at = file.lastIndexOf('/') + 1;
  const [name, setName] = useState(file.slice(at).replace(/\.md$/i, ''));
  const uses = useAnswer('usesOfDocument', waiting > 0 ? undefined : { file });
  const places = usePlaces(uses ?? []);
  const number = overview?.documents.find((one) => one.file === file)?.number ?? '';
  const record = number !== '' && documents.get(recordPath(number)) ? recordPath(number) : undefined;
  const to = `${file.slice(0, at)}${name.trim()}.md`;
  return (
    <OverSheet title={`${words.fileOfText}: ${nameOf(file)}`}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          closePanel();
          void renameText(file, to);
        }}
      >
        <div className="row">
          <label className="field">
            {words.fileName}
            <input ref={focus} size={48} value={name} onChange={(event) => setName(event.target.value)} />
          </label>
          <button type="submit" disabled={name.trim() === '' || to === file}>
            {words.renameFile}
          </button>
        </div>
        <p className="quiet">{words.fileNameMeans}</p>
      </form>
      {uses === undefined ? <p className="quiet">{waiting > 0 ? words.stillReading(waiting) : words.checking}</p> : null}
      {uses === undefined ? null : <p className={uses.length > 0 ? 'wrong' : ''}>{words.namedIn(uses.length)}</p>}
      <ul className="found">
        {uses?.map((use, index) => (
          <li key={`${use.file}${use.offset}`}>
            <button type="button" className="plain" onClick={() => goTo(use.file, use.offset, use.end)}>
              <span title={places[index]?.title}>{places[index]?.words}</span>
            </button>
          </li>
        ))}
      </ul>
      {record === undefined ? null : <p>{words.recordStays(record)}</p>}
      <p className="row">
        <button
          type="button"
          disabled={uses === undefined}
          onClick={() => {
            closePanel();
            void removeText(file);
          }}
        >
          {words.removeFile}
        </button>
        <span className="quiet">{words.removeMeans}</span>
      </p>
    </OverSheet>
  );
}
