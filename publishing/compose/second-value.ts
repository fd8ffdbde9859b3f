/**
 * How a second value is set off from the first: in round brackets, and where these are open already, after a semicolon; several of them in one
 * pair of round brackets keep square ones, or nobody could tell which belong together. Words only; which value comes first is units-edition.ts.
 */

export interface Setting {
  readonly before: string;
  readonly after: string;
}

export const ROUND: Setting = { before: ' (', after: ')' };
const SQUARE: Setting = { before: ' [', after: ']' };
const SEMICOLON: Setting = { before: '; ', after: '' };

/** Of the value that stands in square brackets at `mark`. */
export function settingAt(text: string, mark: number): Setting {
  const open = openBefore(text, mark);
  if (open === undefined) return ROUND;
  const inside = text.slice(open + 1, closeAfter(text, open));
  return inside.split('[').length > 2 ? SQUARE : SEMICOLON;
}

/** The innermost round bracket that is open at `until`. */
function openBefore(text: string, until: number): number | undefined {
  const open: number[] = [];
  for (let at = 0; at < until; at += 1)
    if (text[at] === '(') open.push(at);
    else if (text[at] === ')') open.pop();
  return open.at(-1);
}

function closeAfter(text: string, open: number): number {
  let depth = 0;
  for (let at = open; at < text.length; at += 1)
    if (text[at] === '(') depth += 1;
    else if (text[at] === ')') {
      depth -= 1;
      if (depth === 0) return at;
    }
  return text.length;
}
