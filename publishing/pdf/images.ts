/** Pictures as image objects: JPEG as it is, PNG decoded to eight bits a channel with its transparency as a mask. */
import { decode } from 'fast-png';
import { type PDFContext, type PDFDict, PDFName, PDFRawStream, type PDFRef } from 'pdf-lib';
import type { BitmapImage } from '../layout/index.ts';
import { stream } from './stream.ts';

export function embedImage(image: BitmapImage, context: PDFContext): PDFRef {
  const facts = { Type: 'XObject', Subtype: 'Image', Width: image.columns, Height: image.rows, BitsPerComponent: 8 };
  if (image.kind === 'jpeg') {
    const { components } = image;
    const space = components === 1 ? 'DeviceGray' : components === 4 ? 'DeviceCMYK' : 'DeviceRGB';
    const dict = context.obj({ ...facts, ColorSpace: space, Filter: 'DCTDecode', Length: image.bytes.length }) as PDFDict;
    // Four-colour JPEG files are stored inverted by common practice.
    if (components === 4) dict.set(PDFName.of('Decode'), context.obj([1, 0, 1, 0, 1, 0, 1, 0]));
    return context.register(PDFRawStream.of(dict, image.bytes));
  }
  const { colour, clear } = channelsOf(image);
  const made = stream(context, colour, { ...facts, ColorSpace: 'DeviceRGB' });
  if (clear !== undefined) {
    const mask = context.register(stream(context, clear, { ...facts, ColorSpace: 'DeviceGray' }));
    made.dict.set(PDFName.of('SMask'), mask);
  }
  return context.register(made);
}

function channelsOf(image: BitmapImage): { colour: Uint8Array; clear: Uint8Array | undefined } {
  const count = image.columns * image.rows;
  const colour = new Uint8Array(count * 3).fill(255);
  const clear = new Uint8Array(count).fill(255);
  let seeThrough = false;
  let decoded: ReturnType<typeof decode>;
  try {
    decoded = decode(image.bytes);
  } catch {
    // Its check sums fit, and yet it cannot be unpacked: whatever wrote it wrote it wrong. Its frame stays white on the page.
    return { colour, clear: undefined };
  }
  const { data, channels, depth, palette } = decoded;
  const eight = (value: number): number => (depth === 16 ? value >> 8 : depth < 8 ? Math.round((value * 255) / ((1 << depth) - 1)) : value);
  for (let i = 0; i < count; i += 1) {
    const at = i * channels;
    const first = data[at] ?? 0;
    const entry = palette?.[first];
    const rgb =
      palette !== undefined
        ? [entry?.[0] ?? 0, entry?.[1] ?? 0, entry?.[2] ?? 0]
        : channels < 3
          ? [eight(first), eight(first), eight(first)]
          : [eight(first), eight(data[at + 1] ?? 0), eight(data[at + 2] ?? 0)];
    colour.set(rgb, i * 3);
    const alpha =
      palette !== undefined ? (entry?.[3] ?? 255) : channels === 2 || channels === 4 ? eight(data[at + channels - 1] ?? 255) : 255;
    clear[i] = alpha;
    if (alpha < 255) seeThrough = true;
  }
  return { colour, clear: seeThrough ? clear : undefined };
}
