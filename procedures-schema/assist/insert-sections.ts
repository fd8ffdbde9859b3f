/** Puts in the sections that make a machine safe and put it back, from the equipment register of the procedure's family. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import { foldText, isProseSection } from '../format/index.ts';
import { type Family, familiesOf } from '../registers/index.ts';
import { formEdits, frontMatterForm } from './front-matter-form.ts';
import { type Insertion, insertionOf, newSection, numbered } from './insertion.ts';
import { makeSafeSteps, restoreSteps, type SafeInput, safeNotes, safeTools, type WantedTool } from './make-safe.ts';
import { listed } from './reading-words.ts';

/** `family` is asked for where the procedure is for several. `title` is "Make safe" unless told. */
export function insertMakeSafe(
  facts: ProcedureFacts,
  library: LibraryFacts,
  options: { readonly family?: string; readonly title?: string } = {},
): Insertion {
  const input = inputOf(facts, library, options.family);
  if (typeof input === 'string') return { ok: false, reason: input };
  const title = options.title ?? 'Make safe';
  if (taken(facts, title)) return { ok: false, reason: `This procedure has a section "${title}" already.` };
  const first = facts.tree.sections.find((section) => !section.prose);
  const main = newSection(facts, first, title, numbered(makeSafeSteps(input)));
  const edits: TextEdit[] = [main, ...toolEdits(facts, library, safeTools(input))];
  return insertionOf(`Insert "${title}"`, edits, main, main.text.indexOf('1. ') + 3, library, safeNotes(input));
}

/** Goes after the last section that is walked through, before those that are only called and the records. */
export function insertRestore(
  facts: ProcedureFacts,
  library: LibraryFacts,
  options: { readonly family?: string; readonly title?: string } = {},
): Insertion {
  const input = inputOf(facts, library, options.family);
  if (typeof input === 'string') return { ok: false, reason: input };
  const title = options.title ?? 'Close up';
  if (taken(facts, title)) return { ok: false, reason: `This procedure has a section "${title}" already.` };
  const { sections } = facts.tree;
  const last = sections.findLastIndex((section) => !section.prose && !section.aside);
  const main = newSection(facts, sections[last + 1], title, numbered(restoreSteps(input)));
  return insertionOf(`Insert "${title}"`, [main], main, main.text.indexOf('1. ') + 3, library, safeNotes(input).slice(0, 1));
}

function inputOf(facts: ProcedureFacts, library: LibraryFacts, wanted: string | undefined): SafeInput | string {
  const families: readonly Family[] = familiesOf(facts.head, library.registers);
  if (families.length === 0) return 'The front matter names no registered model, so no machine is known.';
  const own = wanted === undefined ? families : families.filter(({ name }) => name === wanted);
  const [family, ...others] = own;
  if (!family) return `The procedure is not for the ${wanted}.`;
  if (others.length > 0) return `The procedure is for several families: ${listed(families.map(({ name }) => name))}. Choose one.`;
  return {
    family,
    registers: library.registers,
    models: facts.head.models.map(({ name }) => name),
    roles: facts.head.roles.map(({ name }) => name),
  };
}

function taken(facts: ProcedureFacts, title: string): boolean {
  return isProseSection(title) || facts.tree.sections.some((section) => foldText(section.title) === foldText(title));
}

/** Tools that are not listed yet are added to the front matter. */
export function toolEdits(facts: ProcedureFacts, library: LibraryFacts, wanted: readonly WantedTool[]): readonly TextEdit[] {
  const lines = frontMatterForm(facts, library).fields.find(({ key }) => key === 'tools')?.lines ?? [];
  const missing = wanted.filter(({ name }) => !lines.some((line) => foldText(line.name) === foldText(name)));
  return missing.length === 0 ? [] : formEdits(facts, 'tools', [...lines, ...missing]);
}
