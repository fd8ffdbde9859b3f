/**
 * What a person calls a place of the library: the document and its step, section or field; the register and its entry. Gives the parts; the
 * page words them. Files and lines, which tools need, stand beside.
 */
import type { LibraryFacts } from '../checks/index.ts';
import { positionAt, type SourceText, type YamlNode } from '../format/index.ts';

export interface Where {
  readonly file: string;
  readonly line: number;
  /** Number of a procedure or guide; absent: a register. */
  readonly document?: string;
  /** From the widest in: section, field of the front matter, entry of a register. */
  readonly within: readonly string[];
  /** Label of the step. */
  readonly step?: string;
}

/** Undefined where no such text was read. */
export function whereIs(file: string, offset: number, library: LibraryFacts): Where | undefined {
  const at = (source: SourceText) => ({ file, line: positionAt(source, offset).line });
  const procedure = library.procedures.find((one) => one.file === file);
  if (procedure) {
    const { tree, source, read, head } = procedure;
    const place = { ...at(source), document: head.id };
    if (inside(tree.front, offset)) return { ...place, within: keysAt(tree.front?.root, offset).slice(0, FIELDS) };
    const step = read.labels.steps.findLast((one) => inside(one.step, offset));
    // A label that is the only one of its kind in the document needs no section.
    if (step) return { ...place, within: step.fullLabel === step.label ? [] : [step.section.title], step: step.label };
    const section = tree.sections.findLast((one) => inside(one, offset));
    return { ...place, within: section ? [section.title] : [] };
  }
  const guide = library.guides.find((one) => one.file === file);
  if (guide) {
    const { tree, head } = guide;
    const place = { ...at(tree.source), document: head.id };
    if (inside(tree.front, offset)) return { ...place, within: keysAt(tree.front?.root, offset).slice(0, FIELDS) };
    const part = tree.parts.findLast((one) => inside(one, offset));
    return { ...place, within: part ? [part.title] : [] };
  }
  const register = library.registerFiles.find((one) => one.file.source.path === file);
  if (!register) return undefined;
  const keys = keysAt(register.file.root, offset);
  // Fields and names take turns: families, a family, energy, a source. The names say where; without one, the field does.
  const names = keys.filter((_, index) => index % 2 === 1).slice(0, FIELDS);
  return { ...at(register.file.source), within: names.length > 0 ? names : keys };
}

/** Deeper than this a name no longer says where to look but what stands there. */
const FIELDS = 2;

const inside = (one: { readonly span: { readonly start: number; readonly end: number } } | undefined, offset: number): boolean =>
  one !== undefined && one.span.start <= offset && offset < one.span.end;

/** Keys that the place stands under, from the outermost in. */
function keysAt(node: YamlNode | undefined, offset: number): readonly string[] {
  if (node === undefined || node.kind === 'scalar') return [];
  if (node.kind === 'seq') {
    const item = node.items.find((one) => inside(one, offset));
    return keysAt(item, offset);
  }
  const entry = node.entries.find((one) => inside(one, offset));
  return entry === undefined ? [] : [entry.key.text, ...keysAt(entry.value, offset)];
}
