/** Whether bytes are the picture that their name says. Only what can be printed counts: SVG, PNG and JPEG. Reads; adds nothing. */

const KINDS = [
  { name: 'SVG', ending: /\.svg$/i, begins: undefined },
  { name: 'PNG', ending: /\.png$/i, begins: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { name: 'JPEG', ending: /\.jpe?g$/i, begins: [0xff, 0xd8, 0xff] },
] as const;

/** `other`: a name that no picture has; else the kind that it is named as, and is not. */
export type NoPicture = 'other' | (typeof KINDS)[number]['name'];

/** Undefined: it is one. Whether its dots can be made out is for a decoder to say. */
export function noPicture(name: string, bytes: Uint8Array): NoPicture | undefined {
  const kind = KINDS.find(({ ending }) => ending.test(name));
  if (kind === undefined) return 'other';
  const fits =
    kind.begins === undefined ? isDrawing(new TextDecoder().decode(bytes)) : kind.begins.every((value, at) => bytes[at] === value);
  return fits ? undefined : kind.name;
}

/** Its first element is svg, after what may stand before one. */
const isDrawing = (text: string): boolean =>
  /^\uFEFF?(?:\s|<\?[^>]*\?>|<!--[\s\S]*?-->|<!DOCTYPE(?:[^>[]|\[[^\]]*\])*>)*<(?:\w+:)?svg[\s>/]/i.test(text);
