/** Where an order sends the reader: live references and typed numerals, in the order they stand. */
import type { Target } from './action.ts';
import type { ReadingContext } from './context.ts';
import type { Item } from './items.ts';

export interface FoundTarget {
  readonly target: Target;
  readonly at: number;
  readonly end: number;
}

/** The first target among the items, or in their words ("steps 4 to 7", "step 3b of Check"). */
export function targetIn(items: readonly Item[], text: string, offset: number, context: ReadingContext): FoundTarget | undefined {
  for (const item of items) {
    const { at, end } = item;
    if (item.kind === 'reference') {
      const { form } = item.mark;
      if (form.kind === 'step') return { target: { kind: 'step-id', id: form.id }, at, end };
      if (form.kind === 'steps') return { target: { kind: 'steps-id', from: form.from, to: form.to }, at, end };
      if (form.kind === 'section') return { target: sectionTarget(form), at, end };
      if (form.kind === 'name' && /^[A-Z]{1,5}-?\d{1,6}$/.test(form.name))
        return { target: { kind: 'document', number: form.name }, at, end };
    }
    if (item.kind === 'name') {
      const thing = item.things.find((one) => one.kind === 'section' || one.kind === 'document' || one.kind === 'procedure');
      if (thing?.kind === 'section' && item.things.length === 1) return { target: { kind: 'section', title: thing.name }, at, end };
      if (thing && thing.kind !== 'section') return { target: { kind: 'document', number: thing.name }, at, end };
    }
  }
  const typed =
    /\bsteps?\s+(\d+[a-z]?(?:\.\d+)*|[A-Z]|[a-z](?=\b))(?:\s*(?:to|through|-|–|and)\s*(?:step\s+)?(\d+[a-z]?(?:\.\d+)*|[A-Z]|[a-z](?=\b)))?(?:\s+(?:of|in|under)\s+(?:the\s+)?(?:section\s+)?([A-Z][\w' -]*?)(?=[,.;:]|$|\s+until\b))?/.exec(
      text,
    );
  if (typed) {
    const [whole, from = '', to, section] = typed;
    const named = section === undefined ? {} : { section: section.trim() };
    const at = offset + typed.index;
    const target: Target = to === undefined ? { kind: 'typed-step', label: from, ...named } : { kind: 'typed-steps', from, to, ...named };
    return { target, at, end: at + whole.length };
  }
  const document = /\b([A-Z]{1,5}-\d{1,6})\b/.exec(text);
  const number = document?.[1];
  if (document && number !== undefined && !context.registers.models.some((model) => model.name === number))
    return { target: { kind: 'document', number }, at: offset + document.index, end: offset + document.index + number.length };
  return undefined;
}

function sectionTarget(form: { readonly title?: string; readonly id?: string; readonly document?: string }): Target {
  return {
    kind: 'section',
    ...(form.title === undefined ? {} : { title: form.title }),
    ...(form.id === undefined ? {} : { id: form.id }),
    ...(form.document === undefined ? {} : { document: form.document }),
  };
}
