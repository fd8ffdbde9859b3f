/**
 * What may be written at the caret. The place is told from the text alone (caret.ts), the names from the last facts, so that an answer
 * never waits for a reading.
 */
import type { LibraryFacts } from '../checks/index.ts';
import { caretPlace } from './caret.ts';
import {
  completeAttributeValue,
  completeBraces,
  completeBranch,
  completeNotice,
  completeStepStart,
  completeTable,
  completeUnit,
  completeWord,
} from './complete-body.ts';
import { completeReference } from './complete-reference.ts';
import { completeYaml } from './complete-yaml.ts';
import type { Completions } from './model.ts';

const NOTHING: Completions = { place: 'none', items: [], more: false };

/** `text` is the file as typed now; `library` may be a little older. Best first, at most 60. */
export function complete(path: string, offset: number, text: string, library: LibraryFacts): Completions {
  const facts = library.procedures.find((one) => one.file === path);
  const place = caretPlace(path, text, offset);
  const context = { path, text, offset, library, facts };
  switch (place.kind) {
    case 'yaml':
      return completeYaml(place.from, context);
    case 'reference':
      return completeReference(place, context);
    case 'braces':
      return completeBraces(place);
    case 'notice':
      return completeNotice(place);
    case 'unit':
      return completeUnit(place, context);
    case 'step start':
      return completeStepStart(place, context);
    case 'branch':
      return completeBranch(place, context);
    case 'attribute value':
      return completeAttributeValue(place, context);
    case 'table':
      return completeTable(place, context);
    case 'prose':
      return completeWord(place, context);
    case 'none':
      return NOTHING;
  }
}
