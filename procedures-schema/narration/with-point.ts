/** Numbers of a text that is written with decimal commas, as they are written with points: all that says and compares numbers knows points only. */
import { type DecimalMark, findQuantities } from '../quantities/index.ts';

/** A number with one comma, outside of names, labels and lists of numbers. */
const BARE = /(?<![\p{L}\p{N}.,])\d+,\d+(?![\p{L}\p{N}]|,\d|\.\d)/gu;

export function withPoint(text: string, mark: DecimalMark): string {
  if (mark === 'point' || !/\d[.,]\d/.test(text)) return text;
  let out = '';
  let at = 0;
  for (const { at: from, end, second } of findQuantities(text, mark)) {
    const to = second?.end ?? end;
    out += text.slice(at, from).replace(BARE, pointed) + text.slice(from, to).replace(/\d[\d.,]*\d/g, pointed);
    at = to;
  }
  return out + text.slice(at).replace(BARE, pointed);
}

/** "2,5" is 2.5 and "1.200,5" is 1200.5; what has a point that parts no thousands was meant as it stands. */
function pointed(typed: string): string {
  const [whole = '', ...parts] = typed.split(',');
  const grouped = /^[1-9]\d{0,2}(?:\.\d{3})+$/.test(whole);
  if (parts.length > 1 || (whole.includes('.') && !grouped))
    return parts.length > 1 && !typed.includes('.') ? typed.replaceAll(',', '') : typed;
  const bare = whole.replaceAll('.', '');
  return parts.length === 0 ? bare : `${bare}.${parts[0]}`;
}
