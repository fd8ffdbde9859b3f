/** One scan of a JPEG, walked to its end: every unit is there, every restart in its turn, and nothing is left over. Words of a block: blocks.ts. */
import { Bits } from './bits.ts';
import { type PartReader, type PartTables, progressiveAc, progressiveDc, refinedAc, sequential } from './blocks.ts';
import type { Frame, Scan, Tables } from './model.ts';

/** `end`: where the marker stands after it. `lacking`: it needs a table that nobody gave. Else where reading had to stop, and whether for want of bytes. */
export type ScanEnd = { readonly end: number } | { readonly lacking: true } | { readonly at: number; readonly short: boolean };

export function walkScan(bytes: Uint8Array, from: number, scan: Scan, frame: Frame, tables: Tables): ScanEnd {
  const readers = scan.parts.map((part) => {
    const steps = tables.steps[part.component.steps];
    const own: PartTables | undefined = steps && { dc: tables.dc[part.dc], ac: tables.ac[part.ac], steps };
    return own && readerOf(own, scan, frame, part.component.set);
  });
  if (!readers.every((reader) => reader !== undefined)) return { lacking: true };
  const bits = new Bits(bytes, from);
  const unit = scan.parts.length === 1 ? single(scan, readers, bits) : interleaved(scan, frame, readers, bits);
  const stopped = (): ScanEnd => ({ at: bits.at, short: bits.past });
  let turn = 0;
  for (let done = 0; done < unit.count; done += 1) {
    if (tables.restart > 0 && done > 0 && done % tables.restart === 0) {
      if (readers.some((reader) => reader.owed() > 0) || !bits.toMarker()) return stopped();
      if (bytes[bits.at] !== 0xff || bytes[bits.at + 1] !== 0xd0 + turn) return { at: bits.at, short: bits.at >= bytes.length };
      bits.at += 2;
      turn = (turn + 1) % 8;
      for (const reader of readers) reader.restart();
    }
    if (!unit.read(done) || bits.past) return stopped();
  }
  if (readers.some((reader) => reader.owed() > 0) || !bits.toMarker()) return stopped();
  return { end: bits.at };
}

function readerOf(tables: PartTables, scan: Scan, { progressive }: Frame, set: Uint32Array | undefined): PartReader | undefined {
  if (!progressive || set === undefined) return sequential(tables);
  if (scan.first === 0) return progressiveDc(tables, scan);
  return scan.high === 0 ? progressiveAc(tables, scan, set) : refinedAc(tables, scan, set);
}

interface Units {
  readonly count: number;
  readonly read: (index: number) => boolean;
}

/** A.2.2: of one component only the blocks that show something. */
function single({ parts }: Scan, readers: readonly PartReader[], bits: Bits): Units {
  const { columns, rows, stride } = (parts[0] as Scan['parts'][number]).component;
  const { block } = readers[0] as PartReader;
  let [column, row] = [0, 0];
  return {
    count: columns * rows,
    read: () => {
      const at = row * stride + column;
      column += 1;
      if (column === columns) [column, row] = [0, row + 1];
      return block(bits, at);
    },
  };
}

/** A.2.3: of several, a unit holds some blocks of each. */
function interleaved({ parts }: Scan, { unitsAcross, unitsDown }: Frame, readers: readonly PartReader[], bits: Bits): Units {
  return {
    count: unitsAcross * unitsDown,
    read: (index) => {
      const column = index % unitsAcross;
      const row = (index - column) / unitsAcross;
      for (let p = 0; p < parts.length; p += 1) {
        const { across, down, stride } = (parts[p] as Scan['parts'][number]).component;
        const { block } = readers[p] as PartReader;
        for (let y = 0; y < down; y += 1)
          for (let x = 0; x < across; x += 1) if (!block(bits, (row * down + y) * stride + column * across + x)) return false;
      }
      return true;
    },
  };
}
