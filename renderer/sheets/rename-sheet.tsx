/** Renames what stands at the caret, everywhere, after showing where. */
import { type ReactNode, useState } from 'react';
import type { Proposal } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { Preview } from '../parts/preview.tsx';
import { useAnswered } from '../state/answer.ts';
import { closePanel } from '../state/panel.ts';
import { recordAlong } from '../state/record.ts';
import { say, shown } from '../state/shown.ts';
import { change, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function RenameSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const [to, setTo] = useState('');
  const [proposal, setProposal] = useState<Proposal>();
  const { answer: here, known } = useAnswered('named', file === undefined ? undefined : { file, offset: caret });
  const close = closePanel;
  const name =
    here &&
    ('name' in here.named
      ? here.named.name
      : 'title' in here.named
        ? here.named.title
        : 'id' in here.named
          ? here.named.id
          : here.named.number);
  const apply = ({ title, files }: Extract<Proposal, { ok: true }>): void => {
    const number = here?.named.kind === 'document' ? here.named.number : undefined;
    const along = number === undefined ? [] : recordAlong(number, to.trim());
    // In one go, so that one undo takes back both.
    change(title, [...files.map(({ file: path, edits }) => ({ path, edits })), ...(along ?? [])]);
    say(words.done(title, files.length));
    if (along === undefined && number !== undefined) say(words.reviewStays(number, to.trim()), true);
  };
  return (
    <OverSheet
      title={
        <>
          {words.rename}
          {here ? `: ${here.alias ?? name}` : ''}{' '}
          {here?.alias === undefined ? null : <span className="quiet">({words.alsoCalled(name ?? '')})</span>}{' '}
          {here ? <span className="quiet">({here.uses.length})</span> : null}
        </>
      }
    >
      <form
        className="row"
        onSubmit={(event) => {
          event.preventDefault();
          if (here)
            void core
              .ask('rename', { named: here.named, to, ...(here.alias === undefined ? {} : { alias: here.alias }) })
              .then(setProposal);
        }}
      >
        <input
          ref={focus}
          aria-label={words.renameTo}
          placeholder={words.renameTo}
          value={to}
          onChange={(event) => {
            setTo(event.target.value);
            // What was shown was of another name.
            setProposal(undefined);
          }}
        />
        <button type="submit" disabled={!here || to.trim() === ''}>
          {words.rename} …
        </button>
      </form>
      {known && !here ? (
        <p className="wrong" role="status">
          {words.noNameHere} {words.renameHow}
        </p>
      ) : null}
      {proposal ? (
        <Preview
          proposal={proposal}
          apply={() => {
            if (proposal.ok) apply(proposal);
            close();
          }}
          cancel={() => setProposal(undefined)}
        />
      ) : null}
    </OverSheet>
  );
}
