/** Renames what stands at the caret, everywhere, after showing where. */
import { type ReactNode, useState } from 'react';
import type { Proposal } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { Preview } from '../parts/preview.tsx';
import { useAnswered } from '../state/answer.ts';
import { closePanel } from '../state/panel.ts';
import { shown } from '../state/shown.ts';
import { applyProposed, core } from '../state/workspace.ts';
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
          onChange={(event) => setTo(event.target.value)}
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
            if (proposal.ok) applyProposed(proposal.title, proposal.files);
            close();
          }}
          cancel={() => setProposal(undefined)}
        />
      ) : null}
    </OverSheet>
  );
}
