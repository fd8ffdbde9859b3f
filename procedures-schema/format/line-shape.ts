/** What one line looks like to CommonMark, told from the line alone. What it means in its place is outline's. */

export type LineKind = 'blank' | 'heading' | 'ordered' | 'bullet' | 'code-fence' | 'notice-fence' | 'quote' | 'rule' | 'text';

export const NOTICE_OPEN = /^(:{3,})[ \t]*([^\s:{[][^\s{[]*)?[ \t]*(.*)$/;
const NOTICE_CLOSE = /^:{3,}[ \t]*$/;
const CODE_OPEN = /^(?:`{3,}[^`]*|~{3,}.*)$/;
const RULE = /^(?:\*[ \t]*\*[ \t]*\*[* \t]*|-[ \t]*-[ \t]*-[- \t]*|_[ \t]*_[ \t]*_[_ \t]*)$/;

/** `rest` is the line without its indent. */
export function lineKind(rest: string): LineKind {
  switch (rest.charCodeAt(0)) {
    case 35: // #
      return /^#{1,6}(?:[ \t]|$)/.test(rest) ? 'heading' : 'text';
    case 42: // *
    case 45: // -
      if (RULE.test(rest)) return 'rule';
      return /^[*-](?:[ \t]|$)/.test(rest) ? 'bullet' : 'text';
    case 43: // +
      return /^\+(?:[ \t]|$)/.test(rest) ? 'bullet' : 'text';
    case 95: // _
      return RULE.test(rest) ? 'rule' : 'text';
    case 96: // `
    case 126: // ~
      return CODE_OPEN.test(rest) ? 'code-fence' : 'text';
    case 58: // :
      return /^:::/.test(rest) ? 'notice-fence' : 'text';
    case 62: // >
      return 'quote';
    default:
      if (/^\d{1,9}[.)](?:[ \t]|$)/.test(rest)) return 'ordered';
      return /^\s*$/.test(rest) ? 'blank' : 'text';
  }
}

export function isNoticeClose(rest: string): boolean {
  return NOTICE_CLOSE.test(rest);
}

/** Colons or backticks at the start. */
export function runLength(rest: string): number {
  let at = 1;
  while (at < rest.length && rest[at] === rest[0]) at++;
  return at;
}

/** Whether `rest` closes a code fence opened by `size` times `char`. */
export function closesCode(rest: string, char: string, size: number): boolean {
  return rest.startsWith(char) && runLength(rest) >= size && /^[ \t]*$/.test(rest.slice(runLength(rest)));
}

/** Columns of leading blanks, tabs to the next stop of four, and how many characters they are. */
export function indentOf(line: string, fromColumn = 0): { readonly columns: number; readonly chars: number } {
  let column = fromColumn;
  let at = 0;
  for (; at < line.length; at++) {
    const code = line.charCodeAt(at);
    if (code === 32) column += 1;
    else if (code === 9) column += 4 - (column % 4);
    else break;
  }
  return { columns: column - fromColumn, chars: at };
}
