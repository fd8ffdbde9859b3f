/** Which paths of a library can be written on every system. Knows names only; whether a link leads out is for `inside.ts`. */

/** What no system, or not every one, allows in a name; a colon opens a hidden stream on Windows. */
const FORBIDDEN = '\\:<>"|?*';

/** Names that are devices on Windows, with any ending: Microsoft, "Naming Files, Paths, and Namespaces". */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(\..*)?$/i;

/** The shortest limit among the usual file systems, in bytes of UTF-8. */
const LONGEST_NAME = 255;
const LONGEST_PATH = 1_000;

const bytesIn = (text: string): number => new TextEncoder().encode(text).length;

/** Why a path below a library, with forward slashes, is none that every system can hold. Undefined: it is fine. */
export function unfitPath(own: string): string | undefined {
  if (own.length > LONGEST_PATH) return 'It is too long.';
  if (/\p{Surrogate}/u.test(own)) return 'It holds half a character.';
  for (const letter of own)
    if (letter < ' ' || letter === '\u007f' || FORBIDDEN.includes(letter)) return 'It holds a letter that not every system allows.';
  for (const part of own.split('/')) {
    if (part === '') return 'It begins or ends with a slash, or has two in a row.';
    if (part.startsWith('.')) return 'A part of it begins with a dot.';
    if (/[. ]$/.test(part)) return 'A part of it ends with a dot or a space.';
    if (DEVICE.test(part)) return `"${part}" is a device on Windows.`;
    if (bytesIn(part) > LONGEST_NAME) return 'A part of it is too long.';
  }
  return undefined;
}
