/** Whether a new name is another thing's name already, in any procedure where the renamed one stands. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { foldText } from '../format/index.ts';
import { familiesOf, type Thing } from '../registers/index.ts';
import type { Named } from './model.ts';
import { attributeClash } from './rename-attribute.ts';
import { KIND_WORDS } from './thing-words.ts';

export function clashOf(named: Named, to: string, library: LibraryFacts): string | undefined {
  switch (named.kind) {
    case 'step':
    case 'table':
    case 'figure': {
      const facts = library.procedures.find(({ file }) => file === named.file);
      return facts && idsOf(facts).has(to) ? `This procedure has the id "${to}" already.` : undefined;
    }
    case 'section':
      return sectionClash(named, to, library);
    case 'document':
      return numberClash(to, library);
    case 'symptom': {
      const other = library.registers.symptoms.find(
        ({ name, aliases }) => name !== named.name && [name, ...aliases].some((one) => same(one, to)),
      );
      return other && `"${to}" is the symptom ${other.name} already.`;
    }
    case 'measurement':
    case 'role': {
      const facts = library.procedures.find(({ file }) => file === named.file);
      return facts && inProcedure(facts, to, (thing) => thing.kind === named.kind && same(thing.name, named.name));
    }
    case 'attribute':
      return attributeClash(named, to, library);
    case 'thing':
      return thingClash(named, to, library);
  }
}

const same = (a: string, b: string): boolean => foldText(a) === foldText(b);

function idsOf(facts: ProcedureFacts): ReadonlySet<string> {
  return new Set(
    [...facts.source.text.matchAll(/\{[^}\n]*#([a-z][a-z0-9-]*)/g)]
      .map((found) => found[1] ?? '')
      .concat(facts.tree.sections.map(({ id }) => id)),
  );
}

function sectionClash(named: Extract<Named, { kind: 'section' }>, to: string, library: LibraryFacts): string | undefined {
  const facts = library.procedures.find(({ file }) => file === named.file);
  if (facts?.tree.sections.some((section) => section.id !== named.id && same(section.title, to)))
    return `This procedure has a section "${to}" already.`;
  const test = returnTestIn(named.title, library);
  if (test !== undefined && !foldText(to).includes(test))
    return `The register asks for a ${test} by that name; under the title "${to}" nothing would say that it was done.`;
  return facts && inProcedure(facts, to, (thing) => thing.kind === 'section' && same(thing.name, named.title));
}

/** A test that must follow when something was disturbed, where the title says it. */
function returnTestIn(title: string, { registers }: LibraryFacts): string | undefined {
  const things = registers.families.flatMap(({ parts, covers, fasteners }) => [...parts, ...covers, ...fasteners]);
  return things
    .flatMap(({ returnTest }) => (returnTest === undefined ? [] : [foldText(returnTest)]))
    .find((test) => foldText(title).includes(test));
}

function numberClash(to: string, library: LibraryFacts): string | undefined {
  const file = [...library.procedures, ...library.guides].find(({ head }) => head.id === to)?.file;
  if (file !== undefined) return `${to} is the number of ${file} already.`;
  const cited = library.registers.documents.find(({ number, aliases }) => [number, ...aliases].some((one) => same(one, to)));
  if (cited) return `${to} is a document from elsewhere: ${cited.title}.`;
  return library.registers.models.some(({ name }) => same(name, to)) ? `${to} is a model.` : undefined;
}

/** In each procedure that may say the name, and in the register itself, where no procedure may yet. */
function thingClash(named: Extract<Named, { kind: 'thing' }>, to: string, library: LibraryFacts): string | undefined {
  const self = (thing: Thing): boolean =>
    thing.kind === named.thing &&
    same(thing.name, named.name) &&
    (named.family === undefined || thing.family === undefined || thing.family === named.family);
  if (named.thing === 'model' || named.thing === 'document') {
    const clash = numberClash(to, library);
    if (clash !== undefined) return clash;
  }
  for (const facts of library.procedures) {
    if (named.family !== undefined && !familiesOf(facts.head, library.registers).some(({ name }) => name === named.family)) continue;
    const clash = inProcedure(facts, to, self);
    if (clash !== undefined) return clash;
  }
  const { registers } = library;
  const families = registers.families.filter(({ name }) => named.family === undefined || name === named.family);
  const lists = [
    ...families.flatMap((family) => [
      family.sources,
      family.points,
      family.controls,
      family.covers,
      family.zones,
      family.parts,
      family.fasteners,
      family.gauges,
    ]),
    registers.tools,
    registers.consumables,
    registers.replacements,
    registers.options,
    registers.models,
    registers.families,
  ];
  const taken = lists.flat().some(({ name, aliases }) => [name, ...(aliases ?? [])].some((one) => same(one, to)));
  return taken ? `The registers have "${to}" already.` : undefined;
}

function inProcedure(facts: ProcedureFacts, to: string, self: (thing: Thing) => boolean): string | undefined {
  const [other] = facts.names.lookup(to).filter((thing) => !self(thing));
  if (other)
    return `In ${facts.head.id === '' ? facts.file : facts.head.id}, "${to}" is the ${KIND_WORDS[other.kind]} ${other.name} already.`;
  const own = facts.names.lookup(to).length > 0;
  return own ? `"${to}" is another name of the same thing already. Take it out of "also" first.` : undefined;
}
