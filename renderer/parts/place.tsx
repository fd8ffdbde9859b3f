/** Names of documents, registers and places as a person says them, with the file and line for whoever rests the mouse on one. */
import type { ReactNode } from 'react';
import type { Where } from '../../procedures-schema/assist/index.ts';
import { useAnswer } from '../state/answer.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { PlaceAsk } from '../worker/queries/where.ts';

const REGISTER = /^registers\/([\w-]+)\.ya?ml$/;

/** What stands in the list of the library: number and title, or the register's name. */
export function nameOf(file: string): string {
  const document = shown.get().overview?.documents.find((one) => one.file === file);
  return document ? `${document.number} ${document.title}` : registerName(file);
}

/** A file that is neither goes by its path. */
export function registerName(file: string): string {
  if (file === 'library.yaml') return words.libraryFile;
  const own = REGISTER.exec(file)?.[1];
  return own === undefined ? file : (words.registerNames[own] ?? own);
}

const numberOf = (file: string): string => shown.get().overview?.documents.find((one) => one.file === file)?.number ?? registerName(file);

function said(file: string, where: Where | undefined): string {
  const parts = [where?.document ?? numberOf(file), ...(where?.within ?? [])];
  return [...parts, ...(where?.step === undefined ? [] : [words.stepCalled(where.step)])].join(', ');
}

/** Several at once, because one question for a list is one answer. Told by document until the answer is there. */
export function usePlaces(places: readonly PlaceAsk[]): readonly { readonly words: string; readonly title: string }[] {
  const answer = useAnswer('where', places.length === 0 ? undefined : { places });
  return places.map(({ file }, index) => {
    const where = answer?.[index];
    return { words: said(file, where), title: where === undefined ? file : words.fileAndLine(file, where.line) };
  });
}

export function Place({ file, offset }: PlaceAsk): ReactNode {
  const [place] = usePlaces([{ file, offset }]);
  return <span title={place?.title}>{place?.words}</span>;
}
