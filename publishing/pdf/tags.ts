/** The structure tree of a file (ISO 32000-1, 14.7): elements in reading order, made from the marked content of the pages. */
import type { NodeId, Structure, StructureNode } from '../layout/index.ts';
import type { Bytes } from './bytes.ts';
import type { Box, FieldBox } from './content.ts';
import type { PdfFile } from './file.ts';
import { textString } from './strings.ts';

/** What an element holds, as lists in one table: an element by its node, a mark by page and number, an annotation by page and object. */
const kinds = { element: 0, mark: 1, annotation: 2 } as const;
type Kind = (typeof kinds)[keyof typeof kinds];

/** What elements are drawn as. */
export interface Drawn {
  /** What each figure covers on its page. */
  readonly boxes: ReadonlyMap<NodeId, Box>;
  /** Boxes to be filled in by hand: fields of a form that is paper (ISO 32000-1, 14.8.5.6). Those with an annotation are not among them. */
  readonly fields: ReadonlyMap<NodeId, FieldBox>;
}

export class TagTree {
  private readonly structure: Structure;
  private readonly attached: Uint8Array;
  /** First and last row of each node's list, -1 for none. */
  private readonly first: Int32Array;
  private readonly last: Int32Array;
  /** Of each row: kind, page, number, and the next row of the list. */
  private rows = new Int32Array(4 * 4096);
  private count = 0;
  /** Object number of each node's element. */
  private numbers = new Int32Array(0);

  constructor(structure: Structure) {
    const nodes = structure.nodes.length;
    this.structure = structure;
    this.attached = new Uint8Array(nodes);
    this.attached[0] = 1;
    this.first = new Int32Array(nodes).fill(-1);
    this.last = new Int32Array(nodes).fill(-1);
  }

  /** In reading order: a piece of content, under its element. */
  content(node: NodeId, page: number, id: number): void {
    this.attach(node);
    this.add(node, kinds.mark, page, id);
  }

  annotation(node: NodeId, annotation: number, page: number): void {
    this.attach(node);
    this.add(node, kinds.annotation, page, annotation);
  }

  /** Object number of the element of a node that stands in the file. */
  numberOf(node: NodeId): number {
    return this.numbers[node] as number;
  }

  private add(node: NodeId, kind: Kind, page: number, number: number): void {
    const row = this.count;
    this.count += 1;
    if (4 * this.count > this.rows.length) {
      const grown = new Int32Array(this.rows.length * 2);
      grown.set(this.rows);
      this.rows = grown;
    }
    const { rows } = this;
    rows[4 * row] = kind;
    rows[4 * row + 1] = page;
    rows[4 * row + 2] = number;
    rows[4 * row + 3] = -1;
    const last = this.last[node] as number;
    if (last < 0) this.first[node] = row;
    else rows[4 * last + 3] = row;
    this.last[node] = row;
  }

  /** An element without content on any page does not stand in the file. */
  private attach(node: NodeId): void {
    if (this.attached[node] === 1) return;
    this.attached[node] = 1;
    const { parent } = this.structure.nodes[node] as StructureNode;
    this.attach(parent);
    this.add(parent, kinds.element, 0, node);
  }

  /** Writes all elements under the root given. `pages`: the first of the pages' object numbers. */
  write(file: PdfFile, root: number, pages: number, { boxes, fields }: Drawn): void {
    const { nodes } = this.structure;
    // An empty cell still counts its column.
    nodes.forEach(({ id, role, parent }) => {
      if ((role === 'TD' || role === 'TH') && this.attached[parent] === 1) this.attach(id);
    });
    this.numbers = new Int32Array(nodes.length);
    let next = file.reserve(this.attached.reduce((sum, one) => sum + one, 0));
    for (let node = 0; node < nodes.length; node += 1)
      if (this.attached[node] === 1) {
        this.numbers[node] = next;
        next += 1;
      }
    nodes.forEach((node) => {
      if (this.attached[node.id] !== 1) return;
      const out = file.begin(this.numberOf(node.id));
      out.text(`<</S/${node.role}/P `);
      out.whole(node.parent < 0 ? root : this.numberOf(node.parent));
      out.text(' 0 R');
      this.kids(node.id, pages, out);
      if (node.language !== undefined) out.text(`/Lang${textString(node.language)}`);
      if (node.alt !== undefined) out.text(`/Alt${textString(node.alt)}`);
      if (node.title !== undefined) out.text(`/T${textString(node.title)}`);
      if (node.role === 'Note') out.text(`/ID(note-${node.id})`);
      if (node.scope !== undefined) out.text(`/A<</O/Table/Scope/${node.scope}>>`);
      if (node.numbering !== undefined) out.text(`/A<</O/List/ListNumbering/${node.numbering}>>`);
      const box = node.role === 'Figure' ? boxes.get(node.id) : undefined;
      if (box !== undefined) {
        out.text('/A<</O/Layout/Placement/Block/BBox[');
        box.forEach((value, index) => {
          if (index > 0) out.byte(32);
          out.points(value);
        });
        out.text(']>>');
      }
      const field = node.role === 'Form' ? fields.get(node.id) : undefined;
      if (field !== undefined) {
        out.text(field.kind === 'tick' ? '/A<</O/PrintField/Role/cb/checked/off' : '/A<</O/PrintField/Role/tv');
        out.text(`/Desc${textString(field.says)}>>`);
      }
      out.text('>>');
    });
  }

  private kids(node: NodeId, pages: number, out: Bytes): void {
    const { rows } = this;
    // Most content stands on one page: named once, it need not be named with every mark.
    let home = -1;
    for (let row = this.first[node] as number; row >= 0 && home < 0; row = rows[4 * row + 3] as number)
      if (rows[4 * row] === kinds.mark) home = rows[4 * row + 1] as number;
    if (home >= 0) {
      out.text('/Pg ');
      out.whole(pages + home);
      out.text(' 0 R');
    }
    out.text('/K[');
    const elements = this.sorted(node);
    if (elements !== undefined) {
      elements.forEach((kid, index) => {
        if (index > 0) out.byte(32);
        out.whole(this.numberOf(kid));
        out.text(' 0 R');
      });
    } else {
      const start = this.first[node] as number;
      for (let row = start; row >= 0; row = rows[4 * row + 3] as number) {
        if (row !== start) out.byte(32);
        this.kid(row, home, pages, out);
      }
    }
    out.byte(93);
  }

  private kid(row: number, home: number, pages: number, out: Bytes): void {
    const kind = this.rows[4 * row];
    const page = this.rows[4 * row + 1] as number;
    const number = this.rows[4 * row + 2] as number;
    if (kind === kinds.element) {
      out.whole(this.numberOf(number));
      out.text(' 0 R');
    } else if (kind === kinds.mark && page === home) out.whole(number);
    else {
      out.text(kind === kinds.mark ? '<</Type/MCR/Pg ' : '<</Type/OBJR/Pg ');
      out.whole(pages + page);
      out.text(kind === kinds.mark ? ' 0 R/MCID ' : ' 0 R/Obj ');
      out.whole(number);
      out.text(kind === kinds.mark ? '>>' : ' 0 R>>');
    }
  }

  /**
   * Elements were made in reading order; two columns are drawn row by row. Where text and elements mix, the text says the order (undefined, as where nothing is out of order); and
   * chapters come in the order of the pages: one may have been measured later than the one after it.
   */
  private sorted(node: NodeId): readonly NodeId[] | undefined {
    if (node === 0) return undefined;
    const { rows } = this;
    let before = -1;
    let ordered = true;
    for (let row = this.first[node] as number; row >= 0; row = rows[4 * row + 3] as number) {
      if (rows[4 * row] !== kinds.element) return undefined;
      const element = rows[4 * row + 2] as number;
      if (element < before) ordered = false;
      before = element;
    }
    // Nearly always they come as they were made.
    if (ordered) return undefined;
    const found: NodeId[] = [];
    for (let row = this.first[node] as number; row >= 0; row = rows[4 * row + 3] as number) found.push(rows[4 * row + 2] as number);
    return found.sort((a, b) => a - b);
  }
}
