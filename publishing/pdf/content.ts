/** Drawing operations of one page to a content stream (ISO 32000-1, 8 and 9). Decides nothing; counts the marked content it opens. */
import { type DrawnPage, type Face, faces, type NodeId, type Op, type Path, type Shaped } from '../layout/index.ts';
import { Bytes } from './bytes.ts';
import type { FontCodes } from './codes.ts';
import { deflated } from './deflated.ts';
import { channel, points } from './numbers.ts';

export type Box = readonly [left: number, foot: number, right: number, top: number];

export interface LinkBox {
  readonly box: Box;
  readonly to: string;
  readonly node: NodeId;
  readonly says: string;
}

export interface FieldBox {
  readonly kind: 'text' | 'tick';
  readonly box: Box;
  readonly name: string;
  readonly node: NodeId;
  readonly says: string;
  readonly many: boolean;
}

/** What a page's stream needs around it. */
export interface PageFacts {
  /** Node of each marked-content id. */
  readonly marked: readonly NodeId[];
  /** What each marked figure covers; text counts by its starting point. */
  readonly covers: ReadonlyMap<NodeId, Box>;
  readonly links: readonly LinkBox[];
  readonly fields: readonly FieldBox[];
  readonly targets: readonly { readonly name: string; readonly y: number }[];
  readonly faces: ReadonlySet<Face>;
  readonly images: ReadonlySet<number>;
  /** Opacities used, in hundredths. */
  readonly opacities: ReadonlySet<number>;
}

/** Short: it stands at every change of face. */
export const fontName = (face: Face): string => `F${faces.indexOf(face)}`;
export const imageName = (index: number): string => `I${index}`;
export const opacityName = (hundredths: number): string => `O${hundredths}`;

type Colour = readonly [number, number, number];

const written = new WeakMap<Colour, string>();
/** Colours are a few shared values. */
function shareOf(colour: Colour): string {
  let text = written.get(colour);
  if (text === undefined) {
    text = colour.map(channel).join(' ');
    written.set(colour, text);
  }
  return text;
}

const caps = { butt: 0, round: 1, square: 2 } as const;
const joins = { miter: 0, round: 1, bevel: 2 } as const;

/** What the page description remembers between operators. */
interface Pen {
  fill: Colour | undefined;
  line: Colour | undefined;
  width: number;
  /** Cap, join and dash, as written. */
  form: string;
  face: Face | undefined;
  size: number;
}
/** As a page, and a saved state given back, begins; what is not known is said anew. */
const blankPen = (): Pen => ({ fill: undefined, line: undefined, width: -1, form: '', face: undefined, size: 0 });

/** A sheet of imposed pages is cut and folded, not read: it wants no marks. */
export interface Wanted {
  readonly marks: boolean;
  /** Whether what the element covers is to be known. */
  readonly covered: (node: NodeId) => boolean;
  /** Whether an annotation stands for what is drawn of the element: then the drawing itself is not read. */
  readonly annotated?: (node: NodeId) => boolean;
}

/** Writes one page after the other; the bytes of each hold until the next is written. */
export class ContentWriter {
  readonly out = new Bytes(1 << 16);
  readonly codes: FontCodes;
  private readonly wanted: Wanted;
  private height = 0;
  private pen = blankPen();

  constructor(codes: FontCodes, wanted: Wanted) {
    this.codes = codes;
    this.wanted = wanted;
  }

  page(page: DrawnPage): PageFacts {
    const { out, wanted } = this;
    const marked: NodeId[] = [];
    const covers = new Map<NodeId, Box>();
    const links: LinkBox[] = [];
    const fields: FieldBox[] = [];
    const targets: { name: string; y: number }[] = [];
    const shown = new Set<Face>();
    const images = new Set<number>();
    const opacities = new Set<number>();
    let open: NodeId | undefined;
    out.clear();
    this.height = page.height;
    this.pen = blankPen();
    for (let at = 0; at < page.ops.length; at += 1) {
      const op = page.ops[at] as Op;
      if (open !== undefined) this.cover(op, open, covers);
      switch (op.op) {
        case 'begin':
          if (wanted.annotated?.(op.node)) {
            out.text('/Artifact<</Type/Layout>>BDC\n');
            break;
          }
          if (wanted.covered(op.node) && !covers.has(op.node)) open = op.node;
          if (wanted.marks) {
            out.text('/P<</MCID ');
            out.whole(marked.length);
            out.text('>>BDC\n');
          }
          marked.push(op.node);
          break;
        case 'artifact':
          if (!wanted.marks) break;
          out.text(`/Artifact<</Type/${op.type}`);
          if (op.part !== undefined) out.text(`/Subtype/${op.part}`);
          out.text('>>BDC\n');
          break;
        case 'end':
          open = undefined;
          if (wanted.marks) out.text('EMC\n');
          break;
        case 'text':
          this.text(op, shown);
          break;
        case 'path':
          if (op.opacity !== undefined) opacities.add(Math.round(op.opacity * 100));
          this.path(op);
          break;
        case 'clip':
          out.text('q\n');
          this.outline(op.path);
          out.text('W n\n');
          break;
        case 'unclip':
          out.text('Q\n');
          this.pen = blankPen();
          break;
        case 'image':
          images.add(op.image);
          out.text('q ');
          out.points(op.width);
          out.text(' 0 0 ');
          out.points(op.height);
          out.byte(32);
          this.point(op.x, op.y + op.height);
          out.text(`cm/${imageName(op.image)} Do Q\n`);
          break;
        case 'link':
          links.push({ box: this.box(op), to: op.to, node: op.node, says: op.says });
          break;
        case 'field': {
          const { kind, name, node, says, many = false } = op;
          fields.push({ kind, box: this.box(op), name, node, says, many });
          break;
        }
        case 'target':
          targets.push({ name: op.name, y: page.height - op.y });
          break;
      }
    }
    return { marked, covers, links, fields, targets, faces: shown, images, opacities };
  }

  private box(op: Extract<Op, { op: 'link' | 'field' }>): Box {
    const { height } = this;
    return [op.x, height - op.y - op.height, op.x + op.width, height - op.y];
  }

  /** A point and the space after it. */
  private point(x: number, y: number): void {
    const { out } = this;
    out.points(x);
    out.byte(32);
    out.points(this.height - y);
    out.byte(32);
  }

  private setFill(colour: Colour): void {
    const { pen } = this;
    if (pen.fill === colour || (pen.fill !== undefined && shareOf(pen.fill) === shareOf(colour))) return;
    pen.fill = colour;
    this.out.text(shareOf(colour));
    this.out.text(' rg\n');
  }

  private setStroke(stroke: NonNullable<Extract<Op, { op: 'path' }>['stroke']>): void {
    const { out, pen } = this;
    if (pen.line !== stroke.colour) {
      out.text(shareOf(stroke.colour));
      out.text(' RG\n');
      pen.line = stroke.colour;
    }
    if (pen.width !== stroke.width) {
      out.points(stroke.width);
      out.text(' w\n');
      pen.width = stroke.width;
    }
    const { cap = 'butt', join = 'miter', dash } = stroke;
    const form = dash === undefined && cap === 'butt' && join === 'miter' ? plainForm : formOf(caps[cap], joins[join], dash ?? []);
    if (pen.form !== form) {
      out.text(form);
      pen.form = form;
    }
  }

  /** Four sides with the corners of a rectangle, first across, then down, are one operator. */
  private outline({ segments, points }: Path): void {
    const { out } = this;
    if (segments === 'MLLLZ') {
      const [x, y, r, , , b] = points as number[] as [number, number, number, number, number, number];
      if (points[3] === y && points[4] === r && points[6] === x && points[7] === b) {
        this.point(x, y);
        out.points(Math.round(r) - Math.round(x));
        out.byte(32);
        out.points(Math.round(this.height - b) - Math.round(this.height - y));
        out.text(' re\n');
        return;
      }
    }
    for (let k = 0, at = 0; at < segments.length; at += 1) {
      const letter = segments.charCodeAt(at);
      if (letter === 90) {
        out.text('h\n');
        continue;
      }
      const count = letter === 67 ? 3 : 1;
      for (let n = 0; n < count; n += 1, k += 2) this.point(points[k] as number, points[k + 1] as number);
      out.text(letter === 77 ? 'm\n' : letter === 76 ? 'l\n' : 'c\n');
    }
  }

  private path(op: Extract<Op, { op: 'path' }>): void {
    const { out } = this;
    const { stroke, opacity, fill } = op;
    if (opacity !== undefined) out.text(`q/${opacityName(Math.round(opacity * 100))} gs\n`);
    if (fill !== undefined) this.setFill(fill);
    if (stroke !== undefined) this.setStroke(stroke);
    this.outline(op.path);
    const even = op.evenOdd ? '*\n' : '\n';
    if (fill === undefined) out.text(stroke === undefined ? 'n\n' : 'S\n');
    else out.text((stroke === undefined ? 'f' : 'B') + even);
    if (opacity !== undefined) {
      out.text('Q\n');
      this.pen = blankPen();
    }
  }

  private text(op: Extract<Op, { op: 'text' }>, faces: Set<Face>): void {
    const { out, pen } = this;
    this.setFill(op.colour);
    out.text('BT ');
    if (op.turn === undefined) {
      this.point(op.x, op.y);
      out.text('Td\n');
    } else {
      for (const value of op.turn) {
        out.points(value);
        out.byte(32);
      }
      this.point(op.x, op.y);
      out.text('Tm\n');
    }
    let open = false;
    // Counted, not by "of": there is one for every word of a book.
    for (let index = 0; index < op.run.length; index += 1) {
      const run = op.run[index] as Shaped;
      if (run.face !== pen.face || op.size !== pen.size) {
        if (open) out.text(')]TJ\n');
        open = false;
        faces.add(run.face);
        out.text(`/${fontName(run.face)} `);
        out.points(op.size);
        out.text(' Tf\n');
        pen.face = run.face;
        pen.size = op.size;
      }
      if (run.offsets?.some(([, dy]) => dy !== 0)) {
        if (open) out.text(')]TJ\n');
        open = false;
        this.raised(run, op.size);
        continue;
      }
      if (!open) out.text('[(');
      open = true;
      out.all(this.codes.row(run));
    }
    if (open) out.text(')]TJ\n');
    out.text('ET\n');
  }

  /** Marks set off the line: one glyph after the other, with the pen moved where kerning says so and lifted where the mark stands. */
  private raised(run: Shaped, size: number): void {
    const { out, codes } = this;
    let pending = 0;
    run.glyphs.forEach((glyph, index) => {
      const [dx, dy] = run.offsets?.[index] ?? [0, 0];
      if (dy !== 0) {
        out.points((dy * size) / 1000);
        out.text(' Ts\n');
      }
      out.byte(91);
      if (pending + dx !== 0) out.text(String(-(pending + dx)));
      out.byte(40);
      out.all(codes.one(run.face, glyph, run.texts[index] as string, run.widths[index] as number));
      out.text(')]TJ\n');
      if (dy !== 0) out.text('0 Ts\n');
      pending = (run.advances[index] as number) - (run.widths[index] as number) - dx;
    });
    if (pending !== 0) out.text(`[${-pending}]TJ\n`);
  }

  private cover(op: Op, node: NodeId, covers: Map<NodeId, Box>): void {
    const seen = (x: number, y: number): void => {
      const top = this.height - y;
      const known = covers.get(node);
      covers.set(
        node,
        known === undefined
          ? [x, top, x, top]
          : [Math.min(known[0], x), Math.min(known[1], top), Math.max(known[2], x), Math.max(known[3], top)],
      );
    };
    if (op.op === 'path')
      for (let k = 0; k < op.path.points.length; k += 2) seen(op.path.points[k] as number, op.path.points[k + 1] as number);
    else if (op.op === 'text') seen(op.x, op.y);
    else if (op.op === 'image') {
      seen(op.x, op.y);
      seen(op.x + op.width, op.y + op.height);
    }
  }
}

const formOf = (cap: number, join: number, dash: readonly number[]): string => `${cap} J ${join} j[${dash.map(points).join(' ')}]0 d\n`;
const plainForm = formOf(0, 0, []);

/** The content stream of one page as it stands in a file. */
export function contentBytes(page: DrawnPage, codes: FontCodes): Uint8Array {
  const writer = new ContentWriter(codes, { marks: true, covered: () => false });
  writer.page(page);
  return deflated(writer.out.view());
}
