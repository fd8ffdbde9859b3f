/** The actions on the pages that Print shows. Their keys leave alone those by which a browser enlarges everything. */
import { ARRANGEMENTS } from '../print/arrange.ts';
import { arrange, goToPage, setZoom, stepped, viewing } from '../print/viewing.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Action } from './action.ts';

const inPrint = (): boolean => shown.get().view === 'print';

export const pageActions: readonly Action[] = [
  {
    name: 'larger pages',
    label: () => words.largerPages,
    keys: 'Mod+.',
    view: 'print',
    when: () => inPrint() && stepped(true) !== undefined,
    run: () => setZoom(stepped(true)),
  },
  {
    name: 'smaller pages',
    label: () => words.smallerPages,
    keys: 'Mod+,',
    view: 'print',
    when: () => inPrint() && stepped(false) !== undefined,
    run: () => setZoom(stepped(false)),
  },
  ...(['page', 'width'] as const).map(
    (zoom, index): Action => ({
      name: `fit ${zoom}`,
      label: () => words.fittedTo[zoom],
      keys: `Mod+${index + 4}`,
      view: 'print',
      when: inPrint,
      run: () => setZoom(zoom),
    }),
  ),
  { name: 'go to page', label: () => `${words.goToPage} …`, keys: 'Mod+G', view: 'print', when: inPrint, run: goToPage },
  ...ARRANGEMENTS.map(
    (arrangement): Action => ({
      name: `pages ${arrangement}`,
      label: () => words.arrange[arrangement],
      when: () => inPrint() && viewing.get().arrangement !== arrangement,
      run: () => arrange(arrangement),
    }),
  ),
];
