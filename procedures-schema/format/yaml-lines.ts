/** The lines of a YAML text as somebody sees them who looks for a slip: how far in each stands, whether it begins a field, and what it leaves open. */

export interface Line {
  readonly start: number;
  readonly text: string;
  readonly indent: number;
  /** Begins a field or an item of a list, outside of brackets. */
  readonly entry: boolean;
  /** A value stands on the line behind the name. */
  readonly value: boolean;
  /** A bracket, brace or quote that was opened on it and not closed. Of several brackets the outermost. */
  readonly open?: { readonly at: number; readonly quote: boolean };
}

const ENTRY = /^(?:-(?:\s|$)|[^\s"'#[\]{},&*!|>%@`?-][^#]*?:(?:\s|$)|"[^"]*":(?:\s|$)|'[^']*':(?:\s|$))/;

/** Without blank lines, comments, and the texts of `|` and `>`. */
export function entryLines(text: string): readonly Line[] {
  const out: Line[] = [];
  let start = 0;
  let block: number | undefined;
  for (const raw of text.split('\n')) {
    const words = raw.replace(/\r$/, '');
    const indent = /^[ \t]*/.exec(words)?.[0].length ?? 0;
    const trimmed = words.slice(indent);
    if (block !== undefined && trimmed !== '' && indent <= block) block = undefined;
    if (trimmed !== '' && !trimmed.startsWith('#') && block === undefined) {
      const open = leftOpen(words, indent);
      out.push({
        start,
        text: words,
        indent,
        entry: ENTRY.test(trimmed),
        value: /:\s+[^\s#]/.test(trimmed),
        ...(open === undefined ? {} : { open: { at: start + open.at, quote: open.quote } }),
      });
      if (/(?:^|[\s:-])[|>][+-]?\d?\s*(?:\s#.*)?$/.test(words)) block = indent;
    }
    start += raw.length + 1;
  }
  return out;
}

function leftOpen(line: string, from: number): { readonly at: number; readonly quote: boolean } | undefined {
  const brackets: number[] = [];
  let fresh = true;
  for (let at = from; at < line.length; at += 1) {
    const char = line[at] as string;
    if (/\s/.test(char)) continue;
    const spaced = at === from || /\s/.test(line[at - 1] ?? ' ');
    if (char === '#' && spaced) break;
    if (fresh && (char === '"' || char === "'")) {
      const end = closing(line, at, char);
      if (end === undefined) return { at, quote: true };
      at = end;
      fresh = false;
    } else if ((fresh || brackets.length > 0) && (char === '[' || char === '{')) {
      brackets.push(at);
      fresh = true;
    } else if (brackets.length > 0 && (char === ']' || char === '}')) {
      brackets.pop();
      fresh = false;
    } else {
      const ends = /\s|^$/.test(line[at + 1] ?? '');
      fresh = (char === ',' && brackets.length > 0) || (ends && (char === ':' || (char === '-' && fresh)));
    }
  }
  return brackets[0] === undefined ? undefined : { at: brackets[0], quote: false };
}

function closing(line: string, from: number, quote: string): number | undefined {
  for (let at = from + 1; at < line.length; at += 1) {
    if (quote === '"' && line[at] === '\\') at += 1;
    else if (line[at] === quote) {
      if (quote === '"' || line[at + 1] !== quote) return at;
      at += 1;
    }
  }
  return undefined;
}
