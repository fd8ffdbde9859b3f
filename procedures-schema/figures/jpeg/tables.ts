/** The parts of a JPEG that its dots cannot be read without: tables, frame and head of a scan (ITU-T T.81, B.2). False or undefined: no JPEG says so. */
import { codeTable } from './codes.ts';
import type { Component, Frame, Scan, Tables } from './model.ts';

/** A part without its marker and length. */
type Part = Uint8Array;

const word = (part: Part, at: number): number => ((part[at] as number) << 8) | (part[at + 1] as number);

/** B.2.4.1: what values are multiplied by, in the order in which they come. */
export function takeSteps(part: Part, { steps }: Tables): boolean {
  let at = 0;
  while (at < part.length) {
    const [wide, number] = [(part[at] as number) >> 4, (part[at] as number) & 15];
    const size = wide === 0 ? 64 : 128;
    if (wide > 1 || number > 3 || at + 1 + size > part.length) return false;
    const from = at + 1;
    steps[number] = Uint16Array.from({ length: 64 }, (_, k) => (wide === 0 ? (part[from + k] as number) : word(part, from + 2 * k)));
    if (steps[number]?.includes(0)) return false;
    at += 1 + size;
  }
  return true;
}

/** B.2.4.2 */
export function takeCodes(part: Part, { dc, ac }: Tables): boolean {
  let at = 0;
  while (at < part.length) {
    const [kind, number] = [(part[at] as number) >> 4, (part[at] as number) & 15];
    const counts = part.subarray(at + 1, at + 17);
    const size = counts.reduce((sum, count) => sum + count, 0);
    if (kind > 1 || number > 3 || size > 256 || at + 17 + size > part.length) return false;
    const table = codeTable(counts, part.slice(at + 17, at + 17 + size));
    if (table === undefined) return false;
    (kind === 0 ? dc : ac)[number] = table;
    at += 17 + size;
  }
  return true;
}

/** B.2.2; `rows` and `columns` of dots are more than nought. */
export function frameIn(part: Part, progressive: boolean, columns: number, rows: number): Frame | undefined {
  const count = part[5] ?? 0;
  if (part.length !== 6 + 3 * count) return undefined;
  const own = Array.from({ length: count }, (_, k) => {
    const at = 6 + 3 * k;
    return {
      id: part[at] as number,
      across: (part[at + 1] as number) >> 4,
      down: (part[at + 1] as number) & 15,
      steps: part[at + 2] as number,
    };
  });
  if (own.some(({ across, down, steps }) => across < 1 || across > 4 || down < 1 || down > 4 || steps > 3)) return undefined;
  if (new Set(own.map(({ id }) => id)).size !== count) return undefined;
  const [most, deepest] = [Math.max(...own.map(({ across }) => across)), Math.max(...own.map(({ down }) => down))];
  const [unitsAcross, unitsDown] = [Math.ceil(columns / (8 * most)), Math.ceil(rows / (8 * deepest))];
  const components = own.map((one): Component => {
    const stride = unitsAcross * one.across;
    return {
      ...one,
      columns: Math.ceil(Math.ceil((columns * one.across) / most) / 8),
      rows: Math.ceil(Math.ceil((rows * one.down) / deepest) / 8),
      stride,
      ...(progressive ? { set: new Uint32Array(2 * stride * unitsDown * one.down) } : {}),
    };
  });
  return { progressive, components, unitsAcross, unitsDown };
}

/** B.2.3 */
export function scanIn(part: Part, { components, progressive }: Frame): Scan | undefined {
  const count = part[0] ?? 0;
  if (count < 1 || count > 4 || part.length !== 4 + 2 * count) return undefined;
  const parts = Array.from({ length: count }, (_, k) => {
    const component = components.find(({ id }) => id === part[1 + 2 * k]);
    const tables = part[2 + 2 * k] as number;
    return component && { component, dc: tables >> 4, ac: tables & 15 };
  });
  if (!parts.every((one) => one !== undefined) || new Set(parts.map(({ component }) => component)).size !== count) return undefined;
  const [first, last, bits] = [part[1 + 2 * count] as number, part[2 + 2 * count] as number, part[3 + 2 * count] as number];
  const scan: Scan = { parts, first, last, high: bits >> 4, low: bits & 15 };
  return !progressive || possible(scan) ? scan : undefined;
}

/** G.1.1.1: the first value comes alone, the others of one component alone, and each pass adds one bit. */
const possible = ({ parts, first, last, high, low }: Scan): boolean =>
  (first === 0 ? last === 0 : first <= last && last < 64 && parts.length === 1) && low < 14 && (high === 0 || high === low + 1);
