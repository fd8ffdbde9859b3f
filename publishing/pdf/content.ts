/** Drawing operations of one page to a content stream (ISO 32000-1, 8 and 9). Decides nothing; counts the marked content it opens. */
import type { DrawnPage, Face, NodeId, Op, Path, Shaped } from '../layout/index.ts';
import { type FontTable, packed } from './fonts.ts';
import { channel, hex4, points } from './numbers.ts';

export interface LinkBox {
  readonly box: readonly [number, number, number, number];
  readonly to: string;
  readonly node: NodeId;
  readonly says: string;
}

export interface FieldBox {
  readonly kind: 'text' | 'tick';
  readonly box: readonly [number, number, number, number];
  readonly name: string;
  readonly node: NodeId;
  readonly says: string;
  readonly many: boolean;
}

export interface PageContent {
  readonly text: string;
  /** Node of each marked-content id. */
  readonly marked: readonly NodeId[];
  /** What each marked content covers: left, foot, right, top; undefined where nothing is drawn. Text counts by its starting point. */
  readonly covers: readonly (readonly [number, number, number, number] | undefined)[];
  readonly links: readonly LinkBox[];
  readonly fields: readonly FieldBox[];
  readonly targets: readonly { readonly name: string; readonly y: number }[];
  readonly faces: readonly Face[];
  readonly images: readonly number[];
  /** Opacities used, in hundredths. */
  readonly opacities: readonly number[];
}

export const fontName = (face: Face): string => `F-${face}`;
export const imageName = (index: number): string => `I${index}`;
export const opacityName = (hundredths: number): string => `O${hundredths}`;

const written = new WeakMap<object, string>();
/** Colours are a few shared values. */
function rgOf(colour: readonly [number, number, number]): string {
  let text = written.get(colour);
  if (text === undefined) {
    text = `${colour.map(channel).join(' ')} rg`;
    written.set(colour, text);
  }
  return text;
}

export function contentOf(page: DrawnPage, fonts: FontTable): PageContent {
  const out: string[] = [];
  const marked: NodeId[] = [];
  const covers: ([number, number, number, number] | undefined)[] = [];
  const links: LinkBox[] = [];
  const fields: FieldBox[] = [];
  const targets: { name: string; y: number }[] = [];
  const usedFaces = new Set<Face>();
  const images = new Set<number>();
  const opacities = new Set<number>();
  const up = (y: number): number => page.height - y;
  const at = (x: number, y: number): string => `${points(x)} ${points(up(y))}`;
  let fill = '';
  // The font stays set from one piece of text to the next, but not out of a saved state.
  let face: Face | undefined;
  let size = 0;
  const restored = (): void => {
    fill = '';
    face = undefined;
  };
  const setFill = (colour: readonly [number, number, number]): void => {
    const next = rgOf(colour);
    if (next !== fill) out.push(next);
    fill = next;
  };
  const paths = (path: Path): void => {
    let k = 0;
    const point = (): string => {
      const text = at(path.points[k] as number, path.points[k + 1] as number);
      k += 2;
      return text;
    };
    for (const letter of path.segments) {
      if (letter === 'M') out.push(`${point()} m`);
      else if (letter === 'L') out.push(`${point()} l`);
      else if (letter === 'C') out.push(`${point()} ${point()} ${point()} c`);
      else out.push('h');
    }
  };
  const drawPath = (op: Extract<Op, { op: 'path' }>): void => {
    const { stroke, opacity } = op;
    const clear = opacity === undefined ? undefined : Math.round(opacity * 100);
    if (clear !== undefined) {
      opacities.add(clear);
      out.push(`q /${opacityName(clear)} gs`);
    }
    if (op.fill !== undefined) setFill(op.fill);
    if (stroke !== undefined) {
      const cap = { butt: 0, round: 1, square: 2 }[stroke.cap ?? 'butt'];
      const join = { miter: 0, round: 1, bevel: 2 }[stroke.join ?? 'miter'];
      out.push(`${stroke.colour.map(channel).join(' ')} RG ${points(stroke.width)} w ${cap} J ${join} j`);
      out.push(`[${(stroke.dash ?? []).map(points).join(' ')}] 0 d`);
    }
    paths(op.path);
    const even = op.evenOdd ? '*' : '';
    out.push(op.fill === undefined ? (stroke === undefined ? 'n' : 'S') : stroke === undefined ? `f${even}` : `B${even}`);
    if (clear !== undefined) {
      out.push('Q');
      restored();
    }
  };
  const drawText = (op: Extract<Op, { op: 'text' }>): void => {
    setFill(op.colour);
    if (op.turn === undefined) out.push(`BT ${at(op.x, op.y)} Td`);
    else out.push(`BT ${op.turn.map(points).join(' ')} ${at(op.x, op.y)} Tm`);
    let row = '';
    const show = (): void => {
      if (row !== '') out.push(`[<${row}>] TJ`);
      row = '';
    };
    for (const run of op.run) {
      if (run.face !== face || op.size !== size) {
        show();
        usedFaces.add(run.face);
        out.push(`/${fontName(run.face)} ${points(op.size)} Tf`);
        face = run.face;
        size = op.size;
      }
      if (run.offsets?.some(([, dy]) => dy !== 0)) {
        show();
        showRun(run, op.size, fonts, out);
      } else row += fonts.row(run);
    }
    show();
    out.push('ET');
  };
  let inside = false;
  const cover = (x: number, y: number): void => {
    if (!inside) return;
    const known = covers[covers.length - 1];
    const top = up(y);
    covers[covers.length - 1] =
      known === undefined
        ? [x, top, x, top]
        : [Math.min(known[0], x), Math.min(known[1], top), Math.max(known[2], x), Math.max(known[3], top)];
  };
  for (const op of page.ops) {
    if (op.op === 'path')
      for (let k = 0; k < op.path.points.length; k += 2) cover(op.path.points[k] as number, op.path.points[k + 1] as number);
    else if (op.op === 'text') cover(op.x, op.y);
    else if (op.op === 'image') {
      cover(op.x, op.y);
      cover(op.x + op.width, op.y + op.height);
    }
    switch (op.op) {
      case 'begin':
        inside = true;
        covers.push(undefined);
        out.push(`/P <</MCID ${marked.length}>> BDC`);
        marked.push(op.node);
        break;
      case 'artifact':
        out.push(`/Artifact <</Type /${op.type}${op.part === undefined ? '' : ` /Subtype /${op.part}`}>> BDC`);
        break;
      case 'end':
        inside = false;
        out.push('EMC');
        break;
      case 'text':
        drawText(op);
        break;
      case 'path':
        drawPath(op);
        break;
      case 'clip':
        out.push('q');
        paths(op.path);
        out.push('W n');
        break;
      case 'unclip':
        out.push('Q');
        restored();
        break;
      case 'image':
        images.add(op.image);
        out.push(`q ${points(op.width)} 0 0 ${points(op.height)} ${at(op.x, op.y + op.height)} cm /${imageName(op.image)} Do Q`);
        break;
      case 'link':
        links.push({ box: [op.x, up(op.y + op.height), op.x + op.width, up(op.y)], to: op.to, node: op.node, says: op.says });
        break;
      case 'field': {
        const { kind, name, node, says, many = false } = op;
        fields.push({ kind, box: [op.x, up(op.y + op.height), op.x + op.width, up(op.y)], name, node, says, many });
        break;
      }
      case 'target':
        targets.push({ name: op.name, y: up(op.y) });
        break;
    }
  }
  return {
    text: out.join('\n'),
    marked,
    covers,
    links,
    fields,
    targets,
    faces: [...usedFaces],
    images: [...images].sort((a, b) => a - b),
    opacities: [...opacities].sort((a, b) => a - b),
  };
}

/** The content stream of one page as it stands in a file. */
export const contentBytes = (page: DrawnPage, fonts: FontTable): Uint8Array =>
  packed(new TextEncoder().encode(contentOf(page, fonts).text));

/** One TJ for a run: codes, with the pen moved where kerning says so. */
function showRun(run: Shaped, size: number, fonts: FontTable, out: string[]): void {
  const parts: string[] = [];
  let codes = '';
  let pending = 0;
  const flush = (): void => {
    if (codes !== '') parts.push(`<${codes}>`);
    codes = '';
  };
  const show = (): void => {
    flush();
    if (parts.length > 0) out.push(`[${parts.join(' ')}] TJ`);
    parts.length = 0;
  };
  const move = (units: number): void => {
    if (units === 0) return;
    flush();
    parts.push(String(-units));
  };
  run.glyphs.forEach((glyph, index) => {
    const width = run.widths[index] as number;
    const [dx, dy] = run.offsets?.[index] ?? [0, 0];
    move(pending + dx);
    if (dy !== 0) {
      show();
      out.push(`${points((dy * size) / 1000)} Ts`);
    }
    codes += hex4(fonts.code(run.face, glyph, run.texts[index] as string));
    if (dy !== 0) {
      show();
      out.push('0 Ts');
    }
    pending = (run.advances[index] as number) - width - dx;
  });
  move(pending);
  show();
}
