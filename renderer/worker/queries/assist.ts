/** What a writer asks at the caret: what may stand there, what stands there, where it is said and used. */
import {
  aliasAt,
  type Completions,
  complete as completeIn,
  definitionOf,
  type Hover,
  hover as hoverIn,
  type Named,
  namedAt,
  type Place,
  type Use,
  usesOf,
} from '../../../procedures-schema/assist/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface AtCaret {
  readonly file: string;
  readonly offset: number;
}

export function complete(model: LibraryModel, ask: AtCaret & { readonly text: string }): Completions {
  return completeIn(ask.file, ask.offset, ask.text, model.facts);
}

export function hover(model: LibraryModel, ask: AtCaret): readonly Hover[] {
  return hoverIn(ask.file, ask.offset, model.facts);
}

export interface NamedHere {
  readonly named: Named;
  /** Set where another of its names stands there. */
  readonly alias?: string;
  readonly definition: Place | undefined;
  readonly uses: readonly Use[];
}

export function named(model: LibraryModel, ask: AtCaret): NamedHere | undefined {
  const found = namedAt(ask.file, ask.offset, model.facts);
  const alias = aliasAt(ask.file, ask.offset, model.facts)?.alias;
  return (
    found && {
      named: found,
      ...(alias === undefined ? {} : { alias }),
      definition: definitionOf(ask.file, ask.offset, model.facts),
      uses: usesOf(found, model.facts),
    }
  );
}

/** Where other texts name the document of this file by its number: what leads nowhere without it. */
export function usesOfDocument(
  model: LibraryModel,
  { file }: { readonly file: string },
): readonly { readonly file: string; readonly offset: number; readonly end: number }[] {
  const head = [...model.facts.procedures, ...model.facts.guides].find((one) => one.file === file)?.head;
  if (!head?.id) return [];
  return usesOf({ kind: 'document', number: head.id }, model.facts)
    .filter((use) => use.file !== file)
    .map((use) => ({ file: use.file, offset: use.span.start, end: use.span.end }));
}
