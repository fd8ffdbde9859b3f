/** Gives tables the id that stands next to them. */
import type { Paragraph, Table } from './tree.ts';

/** A paragraph that is or ends in `{#id}` names the table next to it; one that is nothing else goes. */
export function nameTables<T extends { readonly kind: string }>(blocks: readonly T[]): T[] {
  if (!blocks.some((block) => block.kind === 'table')) return [...blocks];
  const out = [...blocks];
  const named = (at: number): Paragraph | undefined => {
    const block = out[at] as unknown as Paragraph | undefined;
    return block?.kind === 'paragraph' && block.attributes?.id ? block : undefined;
  };
  for (let at = 0; at < out.length; at++) {
    const table = out[at] as unknown as Table;
    if (table.kind !== 'table' || table.id !== undefined) continue;
    const before = named(at - 1);
    const after = before ? undefined : named(at + 1);
    const from = before ?? after;
    if (!from?.attributes?.id) continue;
    out[at] = { ...table, id: from.attributes.id.value, attributes: from.attributes } as unknown as T;
    const whole = from.prose.text === '';
    const where = before ? at - 1 : at + 1;
    if (whole) out.splice(where, 1);
    // A caption keeps its words; its id is used up.
    else out[where] = { kind: 'paragraph', span: from.span, prose: from.prose } as unknown as T;
    if (whole && before) at--;
  }
  return out;
}
