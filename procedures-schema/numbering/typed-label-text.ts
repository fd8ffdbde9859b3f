/** A typed label written anew for another ordinal, in the shape it was typed: "Step 3:" to "Step 4:", "b)" to "c)". */
import type { TypedLabel } from '../format/index.ts';
import { letters, roman } from './label-text.ts';

export function rewritten(raw: string, style: TypedLabel['style'], ordinal: number, parents: readonly number[] = []): string {
  const lead = /^(?:step[\s\u00a0]+|\()/i.exec(raw)?.[0] ?? '';
  const rest = raw.slice(lead.length);
  switch (style) {
    case 'number':
      return lead + rest.replace(/^\d+/, String(ordinal));
    case 'decimal':
      return lead + rest.replace(/^\d+(?:\.\d+)*/, [...parents, ordinal].join('.'));
    case 'letter':
      return lead + rest.replace(/^[A-Za-z]+/, letters(ordinal));
    case 'capital':
      return lead + rest.replace(/^[A-Za-z]+/, letters(ordinal).toUpperCase());
    case 'roman':
      return lead + rest.replace(/^[A-Za-z]+/, roman(ordinal));
    case 'bullet':
      return raw;
  }
}
