/**
 * JPEG (ITU-T T.81), whether it is whole: its parts in order, a frame that a PDF may hold, dots that can be read to the last one, an end. The words of the
 * dots are walked (scan.ts), because nothing else tells damage among them; no dot is made.
 */
import type { BitmapFacts, Fault } from '../model.ts';
import type { Component, Frame, Tables } from './model.ts';
import { walkScan } from './scan.ts';
import { frameIn, scanIn, takeCodes, takeSteps } from './tables.ts';

const SAVED = 'The picture copied here again, or saved anew as JPEG.';
const PLAIN = 'The picture saved as plain (baseline or progressive) JPEG, eight bits a colour, or as PNG.';
const fault = (says: string, right = SAVED): { readonly fault: Fault } => ({ fault: { says, right } });
const CUT = fault('It is cut off: the file ends before the picture does.');

/** Table B.1: markers that stand alone, without a length. */
const alone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
/** Start of a frame: SOF0 to SOF15 without DHT, JPG and DAC. */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Of a progressive picture programs make a dozen; each walks over all blocks, and a file made to keep us busy has thousands. */
const MOST_SCANS = 200;

/** The bytes begin with the start of an image. `most`: dots that a page can hold; of a larger picture only the size is read. */
export function readJpeg(bytes: Uint8Array, most: number): BitmapFacts | { readonly fault: Fault } {
  const word = (at: number): number => ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
  const tables: Tables = { dc: [], ac: [], steps: [], restart: 0 };
  const shown = new Set<Component>();
  let head: BitmapFacts | undefined;
  let frame: Frame | undefined;
  let scans = 0;
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return fault(`It is damaged: after ${at} bytes there is no part where one should begin.`);
    const marker = bytes[at + 1] as number;
    if (marker === 0xd9) {
      if (head === undefined || scans === 0) return fault('It holds no dots.');
      return frame?.components.every((one) => shown.has(one)) ? head : fault('It is damaged: one of its colours is missing.');
    }
    if (marker === 0xff || alone(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    const length = word(at + 2);
    if (at + 2 + length > bytes.length) return CUT;
    if (length < 2 || marker === 0) return fault(`It is damaged: the part that begins after ${at} bytes says that it has no length.`);
    const part = bytes.subarray(at + 4, at + 2 + length);
    const broken = fault(`It is damaged: the part that begins after ${at} bytes says what no JPEG says.`);
    if (isFrame(marker)) {
      // PDF (ISO 32000-1) 7.4.8: the filter takes baseline and progressive frames.
      if (marker > 0xc2) return fault('It is of a kind of JPEG that a PDF cannot hold.', PLAIN);
      if (part[0] !== 8) return fault(`It has ${part[0]} bits a colour; a PDF can hold eight.`, PLAIN);
      head = { rows: word(at + 5), columns: word(at + 7), components: part[5] ?? 0 };
      if (head.columns === 0 || head.rows === 0) return fault('It does not say how large it is.');
      if (![1, 3, 4].includes(head.components))
        return fault(`It has ${head.components} colours; a PDF can hold one, three or four.`, PLAIN);
      if (head.columns * head.rows > most) return head;
      if (frame !== undefined) return broken;
      frame = frameIn(part, marker === 0xc2, head.columns, head.rows);
      if (frame === undefined) return broken;
    }
    if (marker === 0xdb && !takeSteps(part, tables)) return broken;
    if (marker === 0xc4 && !takeCodes(part, tables)) return broken;
    if (marker === 0xdd) tables.restart = word(at + 4);
    at += 2 + length;
    if (marker !== 0xda) continue;
    if (frame === undefined) return fault('It is damaged: its dots come before it says how large it is.');
    const scan = scanIn(part, frame);
    scans += 1;
    if (scan === undefined || scans > MOST_SCANS) return broken;
    const walked = walkScan(bytes, at, scan, frame, tables);
    if ('lacking' in walked) return fault('It is damaged: a table that its dots are read by is missing.');
    if ('at' in walked) {
      if (walked.short)
        return walked.at >= bytes.length ? CUT : fault(`It is damaged: its dots end after ${walked.at} bytes, before the picture does.`);
      return fault(`It is damaged: before byte ${walked.at} its dots cannot be read on.`);
    }
    // A pass that only adds a bit shows nothing that was not there.
    if (!frame.progressive || (scan.first === 0 && scan.high === 0)) for (const { component } of scan.parts) shown.add(component);
    at = walked.end;
  }
  return CUT;
}
