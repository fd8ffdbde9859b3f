/** The structure tree the PDF carries: roles in reading order, made while measuring. Which content belongs to a node is told by the drawing. */

export type Role =
  | 'Document'
  | 'Sect'
  | 'Div'
  | 'H1'
  | 'H2'
  | 'H3'
  | 'H4'
  | 'H5'
  | 'H6'
  | 'P'
  | 'L'
  | 'LI'
  | 'Lbl'
  | 'LBody'
  | 'Table'
  | 'THead'
  | 'TBody'
  | 'TR'
  | 'TH'
  | 'TD'
  | 'Figure'
  | 'Caption'
  | 'Note'
  | 'TOC'
  | 'TOCI'
  | 'Reference'
  | 'Span'
  | 'Link'
  | 'Form';

/** Index into Structure.nodes. */
export type NodeId = number;

export interface StructureNode {
  readonly id: NodeId;
  readonly role: Role;
  readonly parent: NodeId;
  readonly alt?: string;
  readonly title?: string;
  /** Header cells: what they head. */
  readonly scope?: 'Column' | 'Row';
  /** As BCP 47 writes it, where it is not that of what it stands in. */
  readonly language?: string;
  /** Lists: how items are labelled. */
  readonly numbering?: 'Decimal' | 'Disc' | 'None';
}

export interface Structure {
  readonly nodes: readonly StructureNode[];
}

export class StructureBuilder implements Structure {
  readonly nodes: StructureNode[] = [{ id: 0, role: 'Document', parent: -1 }];

  add(parent: NodeId, role: Role, facts?: Omit<Partial<StructureNode>, 'id' | 'role' | 'parent'>): NodeId {
    const id = this.nodes.length;
    this.nodes.push(facts === undefined ? { id, role, parent } : { id, role, parent, ...facts });
    return id;
  }
}
