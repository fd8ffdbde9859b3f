/** What a view says while the library has nothing for it: what the view is for, what comes first, and a button that does it. */
import type { ReactNode } from 'react';
import { closePanel, openPanel } from '../state/panel.ts';
import { say, shown } from '../state/shown.ts';
import { change, documents, show } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { withMachineStart } from './machine-start.ts';

const EQUIPMENT = /^registers\/equipment\.ya?ml$/;
/** As a new library has it. */
const START = { path: 'registers/equipment.yaml', text: 'families: {}\nmodels: {}\n' } as const;

function describeMachine(): void {
  const there = documents.list().find(({ path }) => EQUIPMENT.test(path));
  const path = there?.path ?? START.path;
  const before = documents.get(path)?.text ?? '';
  const text = withMachineStart(there === undefined ? START.text : before);
  if (text !== undefined) {
    change(words.describeMachine, [{ path, edits: [{ start: 0, end: before.length, text }] }]);
    say(words.machineStart.left);
  }
  closePanel();
  show(path);
}

export function NothingYet({ of }: { readonly of: keyof typeof words.viewFor }): ReactNode {
  const { overview } = shown.usePick('overview');
  if (overview === undefined) return <p className="quiet nothing-yet">{words.checking}</p>;
  return (
    <section className="nothing-yet">
      <p>{words.viewFor[of]}</p>
      <WhatFirst />
    </section>
  );
}

/** A procedure is for models of a machine, so the machine comes before it. */
export function WhatFirst(): ReactNode {
  const { overview } = shown.usePick('overview');
  const machines = (overview?.models.length ?? 0) > 0;
  return (
    <>
      <p>{machines ? words.noProcedures : words.noModels}</p>
      <p>
        <button type="button" className="main" onClick={machines ? () => openPanel('new') : describeMachine}>
          {machines ? `${words.newProcedure} …` : words.describeMachine}
        </button>
      </p>
    </>
  );
}
