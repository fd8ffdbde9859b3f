/** Writes one scalar so that the house's reader reads back just that text. Every scalar is text (F11), so little needs quotes. */

// biome-ignore lint/suspicious/noControlCharactersInRegex: what must be written as an escape
const CONTROL = /[\u0000-\u001f\u007f\u0085\u2028\u2029\ufeff]/;

/** `flow`: inside `{}` or `[]`, where commas and brackets would end it. */
export function yamlScalar(text: string, flow = false): string {
  if (text === '') return '""';
  const risky =
    /^[\s\-?:,[\]{}#&*!|>'"%@`]/.test(text) ||
    /\s$/.test(text) ||
    /:(?:\s|$)|\s#/.test(text) ||
    CONTROL.test(text) ||
    /^(?:~|null)$/i.test(text) ||
    (flow && /[,[\]{}]/.test(text));
  // A minus before a number is a plain scalar.
  const plainMinus = /^-\d/.test(text) && !(flow && /[,[\]{}]/.test(text));
  return !risky || plainMinus ? text : quotedScalar(text);
}

/** In double quotes, whatever it is. */
export function quotedScalar(text: string): string {
  return `"${text.replace(/["\\]/g, (c) => `\\${c}`).replace(new RegExp(CONTROL, 'g'), escaped)}"`;
}

function escaped(c: string): string {
  if (c === '\n') return '\\n';
  if (c === '\t') return '\\t';
  return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
}
