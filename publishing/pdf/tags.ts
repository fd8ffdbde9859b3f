/** The structure tree of a file (ISO 32000-1, 14.7): elements in reading order, made from the marked content of the pages. */
import { type PDFContext, PDFHexString, type PDFRef } from 'pdf-lib';
import type { NodeId, Structure, StructureNode } from '../layout/index.ts';
import { points } from './numbers.ts';
import { Written } from './written.ts';

type Kid =
  | { readonly element: NodeId }
  | { readonly page: number; readonly id: number }
  | { readonly annotation: PDFRef; readonly page: number };

const name = (ref: PDFRef): string => `${ref.objectNumber} 0 R`;
const hexText = (text: string): string => PDFHexString.fromText(text).toString();

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
      const own = this.kids.get(node.id) ?? [];
      // Most content stands on one page: named once, it need not be named with every mark.
      const home = own.find((kid): kid is Extract<Kid, { id: number }> => 'id' in kid)?.page;
      // Chapters come in the order of the pages: one may have been measured later than the one after it.
      const kids = (node.id === 0 ? own : inOrder(own)).map((kid) =>
        'element' in kid
          ? name(elements.get(kid.element) as PDFRef)
          : 'annotation' in kid
            ? `<</Type/OBJR/Obj ${name(kid.annotation)}/Pg ${name(pages[kid.page] as PDFRef)}>>`
            : kid.page === home
              ? String(kid.id)
              : `<</Type/MCR/Pg ${name(pages[kid.page] as PDFRef)}/MCID ${kid.id}>>`,
      );
      const box = node.role === 'Figure' ? boxes.get(node.id) : undefined;
      const parent = node.parent < 0 ? root : (elements.get(node.parent) as PDFRef);
      const parts = [
        `<</Type/StructElem/S/${node.role}/P ${name(parent)}${home === undefined ? '' : `/Pg ${name(pages[home] as PDFRef)}`}/K[${kids.join(' ')}]`,
      ];
      if (node.alt !== undefined) parts.push(`/Alt${hexText(node.alt)}`);
      if (node.title !== undefined) parts.push(`/T${hexText(node.title)}`);
      if (node.role === 'Note') parts.push(`/ID${hexText(`note-${node.id}`)}`);
      if (node.scope !== undefined) parts.push(`/A<</O/Table/Scope/${node.scope}>>`);
      if (node.numbering !== undefined) parts.push(`/A<</O/List/ListNumbering/${node.numbering}>>`);
      if (box !== undefined) parts.push(`/A<</O/Layout/Placement/Block/BBox[${box.map(points).join(' ')}]>>`);
      parts.push('>>');
      context.assign(ref, new Written(parts.join('')));
    }
    return { root, elements };
  }
}
