/** The structure tree of a file (ISO 32000-1, 14.7): elements in reading order, made from the marked content of the pages. */
import { type PDFContext, PDFHexString, PDFName, type PDFRef } from 'pdf-lib';
import type { NodeId, Structure, StructureNode } from '../layout/index.ts';
import { points } from './numbers.ts';

type Kid =
  | { readonly element: NodeId }
  | { readonly page: number; readonly id: number }
  | { readonly annotation: PDFRef; readonly page: number };

/** Elements were made in reading order; two columns are drawn row by row. Where text and elements mix, the text says the order. */
const inOrder = (kids: readonly Kid[]): readonly Kid[] =>
  kids.every((kid) => 'element' in kid) ? [...kids].sort((a, b) => ('element' in a && 'element' in b ? a.element - b.element : 0)) : kids;

export class TagTree {
  private readonly kids = new Map<NodeId, Kid[]>();
  private readonly attached = new Set<NodeId>([0]);
  private readonly structure: Structure;

  constructor(structure: Structure) {
    this.structure = structure;
  }

  /** In reading order: a piece of content, under its element. */
  content(node: NodeId, page: number, id: number): void {
    this.attach(node);
    this.of(node).push({ page, id });
  }

  annotation(node: NodeId, annotation: PDFRef, page: number): void {
    this.attach(node);
    this.of(node).push({ annotation, page });
  }

  private of(node: NodeId): Kid[] {
    let list = this.kids.get(node);
    if (list === undefined) {
      list = [];
      this.kids.set(node, list);
    }
    return list;
  }

  /** An element without content on any page does not stand in the file. */
  private attach(node: NodeId): void {
    if (this.attached.has(node)) return;
    this.attached.add(node);
    const { parent } = this.structure.nodes[node] as StructureNode;
    this.attach(parent);
    this.of(parent).push({ element: node });
  }

  /** Registers all elements; gives the root and the element of each node. `boxes`: what each figure covers on its page. */
  write(
    context: PDFContext,
    pages: readonly PDFRef[],
    boxes: ReadonlyMap<NodeId, readonly [number, number, number, number]>,
  ): { readonly root: PDFRef; readonly elements: ReadonlyMap<NodeId, PDFRef> } {
    // An empty cell still counts its column.
    for (const { id, role, parent } of this.structure.nodes)
      if ((role === 'TD' || role === 'TH') && this.attached.has(parent)) this.attach(id);
    const root = context.nextRef();
    const elements = new Map<NodeId, PDFRef>();
    for (const node of this.structure.nodes) if (this.attached.has(node.id)) elements.set(node.id, context.nextRef());
    for (const node of this.structure.nodes) {
      const ref = elements.get(node.id);
      if (ref === undefined) continue;
      const dict = context.obj({ Type: 'StructElem', S: node.role, P: node.parent < 0 ? root : (elements.get(node.parent) as PDFRef) });
      const kids = inOrder(this.kids.get(node.id) ?? []).map((kid) =>
        'element' in kid
          ? (elements.get(kid.element) as PDFRef)
          : 'annotation' in kid
            ? context.obj({ Type: 'OBJR', Obj: kid.annotation, Pg: pages[kid.page] as PDFRef })
            : context.obj({ Type: 'MCR', Pg: pages[kid.page] as PDFRef, MCID: kid.id }),
      );
      dict.set(PDFName.of('K'), context.obj(kids));
      if (node.alt !== undefined) dict.set(PDFName.of('Alt'), PDFHexString.fromText(node.alt));
      if (node.title !== undefined) dict.set(PDFName.of('T'), PDFHexString.fromText(node.title));
      if (node.role === 'Note') dict.set(PDFName.of('ID'), PDFHexString.fromText(`note-${node.id}`));
      if (node.scope !== undefined) dict.set(PDFName.of('A'), context.obj({ O: 'Table', Scope: node.scope }));
      if (node.numbering !== undefined) dict.set(PDFName.of('A'), context.obj({ O: 'List', ListNumbering: node.numbering }));
      const box = node.role === 'Figure' ? boxes.get(node.id) : undefined;
      if (box !== undefined)
        dict.set(PDFName.of('A'), context.obj({ O: 'Layout', Placement: 'Block', BBox: box.map((value) => Number(points(value))) }));
      context.assign(ref, dict);
    }
    return { root, elements };
  }
}
