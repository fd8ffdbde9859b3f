/**
 * Number and title of a procedure told from its first lines without reading it, for a library so long that reading it takes a while. Gives nothing
 * where only the YAML reader can tell; a test holds every guess against it.
 */

export interface HeadGuess {
  readonly id: string;
  readonly title: string;
}

export function guessHead(text: string): HeadGuess | undefined {
  const front = /^\uFEFF?---[ \t]*\r?\n([\s\S]*?)\r?\n---[ \t]*(?:\r?\n|$)/.exec(text)?.[1];
  if (front === undefined) return undefined;
  const [id, title] = [plainValue(front, 'id'), plainValue(front, 'title')];
  return id === undefined || title === undefined ? undefined : { id, title };
}

/** A value that stands whole on its own line, plain or in double quotes without escapes. */
function plainValue(front: string, key: string): string | undefined {
  const found = [...front.matchAll(new RegExp(`^${key}:(.*)$`, 'gm'))];
  const value = found.length === 1 ? found[0]?.[1]?.replace(/\r$/, '') : undefined;
  if (value === undefined) return undefined;
  const quoted = /^[ \t]+"([^"\\]*)"[ \t]*$/.exec(value)?.[1];
  if (quoted !== undefined) return quoted.trim() === quoted && quoted !== '' ? quoted : undefined;
  const plain = /^[ \t]+([\p{L}\p{N}][\p{L}\p{N} ,.()'/+-]*)$/u.exec(value)?.[1]?.trim();
  // A line that goes on, or a word that YAML takes for something else, is for the reader.
  const goesOn = new RegExp(`^${key}:.*\\r?\\n[ \\t]+\\S`, 'm').test(front);
  return plain === undefined || goesOn || /^(null|true|false|yes|no|on|off|~)$/i.test(plain) ? undefined : plain;
}
