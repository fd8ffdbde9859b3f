/** All step references typed as plain text, each with what it means today. Grading them is checks/. */
import { type Procedure, proseSpan } from '../format/index.ts';
import { eachProse } from './each-prose.ts';
import type { Labels, TypedReference } from './model.ts';
import { resolveTyped, typedRange } from './resolve.ts';
import { findTypedWords } from './typed-words.ts';

/** In document order. The words alone decide; readings are not needed for it. */
export function typedReferences(tree: Procedure, labels: Labels, _readings?: unknown): readonly TypedReference[] {
  const out: TypedReference[] = [];
  for (const { prose, section, step } of eachProse(tree)) {
    for (const words of findTypedWords(prose, tree.sections)) {
      const scope = {
        step: words.section || !step ? undefined : labels.byStep.get(step),
        section: words.section ?? section,
        only: words.section !== undefined,
      };
      const resolved = words.to
        ? typedRange(words.from.label, words.to.label, scope, labels)
        : resolveTyped(words.from.label, scope, labels);
      out.push({ span: proseSpan(prose, words.at, words.end), text: prose.text.slice(words.at, words.end), resolved });
    }
  }
  return out.sort((a, b) => a.span.start - b.span.start);
}
