/** Names of documents, registers and places as a person says them, with the file and line for whoever rests the mouse on one. */
import type { ReactNode } from 'react';
import type { Where } from '../../procedures-schema/assist/index.ts';
import { useAnswer } from '../state/answer.ts';
import { nameOf, registerName } from '../state/names.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { PlaceAsk } from '../worker/queries/where.ts';

export { nameOf, registerName };

const numberOf = (file: string): string => shown.get().overview?.documents.find((one) => one.file === file)?.number || nameOf(file);

/** Within its document or register. */
const saidWithin = (where: Where | undefined): string =>
  [...(where?.within ?? []), ...(where?.step === undefined ? [] : [words.stepCalled(where.step)])].join(', ');

function said(file: string, where: Where | undefined): string {
  const [document, within] = [where?.document || numberOf(file), saidWithin(where)];
  return within === '' ? document : `${document}, ${within}`;
}

interface PlaceSaid {
  readonly words: string;
  /** Without the document, for a list under its name. */
  readonly within: string;
  readonly title: string;
}

/** Several at once, because one question for a list is one answer. Told by document until the answer is there. */
export function usePlaces(places: readonly PlaceAsk[]): readonly PlaceSaid[] {
  const answer = useAnswer('where', places.length === 0 ? undefined : { places });
  return places.map(({ file }, index) => {
    const where = answer?.[index];
    return { words: said(file, where), within: saidWithin(where), title: where === undefined ? file : words.fileAndLine(file, where.line) };
  });
}

export function Place({ file, offset }: PlaceAsk): ReactNode {
  const [place] = usePlaces([{ file, offset }]);
  return <span title={place?.title}>{place?.words}</span>;
}
