/**
 * Renaming a registered name, a front-matter name, an id, a section or a document number in the whole library: edits with a preview, or a
 * reason why not. Written forms - capitals, plurals, a or an - are kept. A new name that another thing has is refused: two things of one
 * name could not be told apart.
 */
import type { LibraryFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import { foldText, isProseSection, startsWithQuantity } from '../format/index.ts';
import { sameAttribute } from '../quantities/index.ts';
import { familiesOf } from '../registers/index.ts';
import type { Alias, Named, Proposal } from './model.ts';
import { filesWith, type NamedPlace, nameWords, sameNamed, wordsOf } from './places.ts';
import { proposalOf, textsOf } from './proposals.ts';
import { unfitAttribute } from './rename-attribute.ts';
import { clashOf } from './rename-clash.ts';
import { inFormOf, takesAn } from './written-form.ts';
import { yamlScalar } from './yaml-text.ts';

export function rename(named: Named, newName: string, library: LibraryFacts): Proposal {
  return renameFrom(named, nameOf(named), newName, library);
}

/** Another name of the thing ("also" in the register) gets other words; its first name stays. */
export function renameAlias({ of, alias }: Alias, newName: string, library: LibraryFacts): Proposal {
  return renameFrom(of, alias, newName, library);
}

function renameFrom(named: Named, from: string, newName: string, library: LibraryFacts): Proposal {
  const to = newName.replace(/\s+/g, ' ').trim();
  const reason =
    to === from ? 'That is its name already.' : (unfit(named, to, library) ?? clashOf(named, to, library) ?? shared(named, library));
  if (reason !== undefined) return { ok: false, reason };
  const renaming = { named, from, to, typedId: hasTypedId(named, library) };
  const edits: TextEdit[] = [];
  for (const file of filesWith(from === nameOf(named) ? wordsOf(named) : nameWords(from), library))
    for (const place of file.places)
      if (sameNamed(place.named, named)) edits.push(...editsAt(place, renaming, file.file, file.source.text));
  if (edits.length === 0) return { ok: false, reason: `"${from}" stands nowhere in the library.` };
  return proposalOf(`Rename ${from} to ${to}`, withoutDoubles(edits), textsOf(library));
}

interface Renaming {
  readonly named: Named;
  readonly from: string;
  readonly to: string;
  /** The section's id was typed and so stays. */
  readonly typedId: boolean;
}

export function nameOf(named: Named): string {
  switch (named.kind) {
    case 'step':
    case 'table':
    case 'figure':
      return named.id;
    case 'section':
      return named.title;
    case 'document':
      return named.number;
    default:
      return named.name;
  }
}

/** Why a text can be no name of that kind. */
function unfit(named: Named, to: string, library: LibraryFacts): string | undefined {
  if (to === '') return 'A name needs at least one letter.';
  if (/[[\]{}|`*\\<>\p{Cc}]/u.test(to)) return `"${to}" holds a sign that cannot stand in a name.`;
  switch (named.kind) {
    case 'step':
    case 'table':
    case 'figure':
      return /^[a-z][a-z0-9-]*$/.test(to) ? undefined : 'An id starts with a small letter and holds small letters, digits and hyphens.';
    case 'section':
      if (isProseSection(named.title))
        return `"${named.title}" is a section of prose by its title; under another title its text would be read as steps.`;
      return isProseSection(to) ? `A section called "${to}" holds no steps, so the steps of this one would be lost.` : undefined;
    case 'document': {
      const pattern = library.registers.house.documentNumber;
      return pattern !== undefined && !matches(pattern, to) ? `"${to}" does not follow the house pattern ${pattern}.` : undefined;
    }
    case 'attribute':
      return unfitAttribute(to);
    default:
      if (!/\p{L}/u.test(to)) return 'A name needs at least one letter.';
      if (startsWithQuantity(to) && !(named.kind === 'thing' && named.thing === 'tool')) return `"${to}" would be read as a quantity.`;
      return /^(?:steps?|section|table|figure)\s/i.test(to) ? `"${to}" would be read as a reference to a ${to.split(' ')[0]}.` : undefined;
  }
}

function matches(pattern: string, text: string): boolean {
  try {
    return new RegExp(`^(?:${pattern})$`, 'u').test(text);
  } catch {
    return true;
  }
}

/** A procedure for two families says one name for a thing of each: renaming one would tear them apart. */
function shared(named: Named, library: LibraryFacts): string | undefined {
  if (named.kind !== 'thing' || named.family === undefined || named.thing === 'machine') return undefined;
  const torn = library.procedures.find((facts) => {
    const families = familiesOf(facts.head, library.registers);
    if (!families.some(({ name }) => name === named.family)) return false;
    const things = families
      .filter(({ name }) => name !== named.family)
      .flatMap((family) =>
        [family.sources, family.points, family.controls, family.covers, family.zones, family.parts, family.fasteners, family.gauges].flat(),
      );
    return things.some(({ name }) => foldText(name) === foldText(named.name));
  });
  return torn && `${torn.head.id} is for several families that each have a "${named.name}". Rename it there in steps of its own.`;
}

function editsAt(place: NamedPlace, { named, from, to, typedId }: Renaming, file: string, text: string): readonly TextEdit[] {
  const { start, end } = place.span;
  const written = text.slice(start, end);
  const edit = (replacement: string): readonly TextEdit[] => [{ file, start, end, text: replacement }];
  switch (place.how) {
    case 'yaml':
    case 'flow':
      // What is written by another of its names stays.
      return foldText(unquoted(written)) === foldText(from) ? edit(yamlScalar(to, place.how === 'flow')) : [];
    case 'id':
      if (named.kind === 'section') return sectionById(place, to, typedId, file, text);
      return edit(to);
    case 'attribute': {
      // "per belt" is the attribute "belts"; another plural than with an s is not.
      const other = inFormOf(written, from, to);
      return edit(other !== undefined && sameAttribute(other, to) ? other : to);
    }
    case 'title':
      return edit(inFormOf(written, from, to) ?? to);
    case 'prose': {
      const other = inFormOf(written, from, to);
      // What is written by another of its names stays.
      return other === undefined ? [] : [...article(place, to, file, text), ...edit(other)];
    }
  }
}

const unquoted = (written: string): string => written.replace(/^(["'])([\s\S]*)\1$/, '$2');

/** An id made from the title changes with it: the reference then says the title. One that was typed stays. */
function sectionById(place: NamedPlace, to: string, typed: boolean, file: string, text: string): readonly TextEdit[] {
  const { start, end } = place.span;
  return place.role === 'definition' || typed || text[start - 1] !== '#' ? [] : [{ file, start: start - 1, end, text: to }];
}

/** Whether a section carries an id of its own in braces. */
function hasTypedId(named: Named, library: LibraryFacts): boolean {
  if (named.kind !== 'section') return false;
  const facts = library.procedures.find(({ file }) => file === named.file);
  return facts?.tree.sections.find(({ id }) => id === named.id)?.attributes?.id !== undefined;
}

/** "a" or "an" before the name, where the first letter changes which it is. */
function article(place: NamedPlace, to: string, file: string, text: string): readonly TextEdit[] {
  const before = text.slice(Math.max(0, place.span.start - 6), place.span.start);
  const found = /(?:^|[\s(])(an?)(\s+\[?)$/i.exec(before);
  const wanted = takesAn(to);
  if (!found || wanted === undefined) return [];
  const [, own = '', gap = ''] = found;
  if ((own.toLowerCase() === 'an') === wanted) return [];
  const end = place.span.start - gap.length;
  return [{ file, start: end - own.length, end, text: `${own.charAt(0)}${wanted ? 'n' : ''}` }];
}

function withoutDoubles(edits: readonly TextEdit[]): readonly TextEdit[] {
  const seen = new Set<string>();
  return edits.filter(({ file, start, end }) => {
    const key = `${file}:${start}:${end}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
