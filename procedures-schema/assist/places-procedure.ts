/** Named places of a procedure: its front matter, its addresses, its references, and names in its words. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { eachBlock, eachProse } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { type Attributes, foldText, type Prose, proseSpan, type ReferenceMark } from '../format/index.ts';
import { spellingsOf, type ThingKind } from '../registers/index.ts';
import type { Named } from './model.ts';
import type { NamedPlace } from './places.ts';
import { attributesInFront, attributesInTables } from './places-attribute.ts';
import { mentionsIn, namedOf, partSpan } from './places-text.ts';
import { type YamlVisit, yamlVisits } from './places-yaml.ts';

interface Known {
  readonly names: ProcedureFacts['names'];
  /** Set where a reference leads into another procedure, whose sections may change. */
  readonly library: LibraryFacts | undefined;
  readonly places: readonly NamedPlace[];
}

const KNOWN = new WeakMap<ProcedureFacts['tree'], Known>();

export function procedurePlaces(facts: ProcedureFacts, library: LibraryFacts): readonly NamedPlace[] {
  const known = KNOWN.get(facts.tree);
  if (known && known.names === facts.names && (known.library ?? library) === library) return known.places;
  const made = [...frontPlaces(facts, library), ...addresses(facts), ...bodyPlaces(facts, library), ...attributesInTables(facts, library)];
  const places = made.sort((a, b) => a.span.start - b.span.start || b.span.end - a.span.end);
  const abroad = places.some(({ named }) => named.kind === 'section' && named.file !== facts.file);
  KNOWN.set(facts.tree, { names: facts.names, library: abroad ? library : undefined, places });
  return places;
}

// ---------------------------------------------------------------- front matter

const LISTED: Readonly<Record<string, ThingKind>> = {
  models: 'model',
  options: 'option',
  tools: 'tool',
  consumables: 'consumable',
  parts: 'replacement',
  protection: 'tool',
};

/** Fields that are read by people, or in which names count. */
const WORDS: ReadonlySet<string> = new Set(['title', 'live task', 'note', 'at', 'pass', 'fail']);

function frontPlaces(facts: ProcedureFacts, library: LibraryFacts): NamedPlace[] {
  return yamlVisits(facts.tree.front?.root, facts.source.text).flatMap((visit) => frontPlace(visit, facts, library));
}

function frontPlace(visit: YamlVisit, facts: ProcedureFacts, library: LibraryFacts): readonly NamedPlace[] {
  const { registers } = library;
  const { path, key, scalar, flow } = visit;
  const [top = '', name, field] = path;
  const text = scalar.text.trim();
  const at = (named: Named | undefined, role: NamedPlace['role'] = 'field'): readonly NamedPlace[] =>
    named ? [{ named, span: scalar.span, role, how: flow ? 'flow' : 'yaml' }] : [];
  const last = path.at(-1) ?? '';
  if (top === 'measurements') {
    if (key && path.length === 1) return at({ kind: 'measurement', file: facts.file, name: text }, 'definition');
    if (key && path.length === 3 && field === 'limits') return at(modelNamed(text, library));
    const attributes = attributesInFront(visit, facts, library);
    if (attributes.length > 0) return attributes;
    if (!key && path.length === 3 && field === 'with') return at(thingNamed('tool', text, library));
    if (!key && path.length === 3 && field === 'limits') {
      const id = /^table\s+#?(\S+)$/i.exec(text)?.[1];
      const own = id === undefined ? undefined : partSpan(facts.source.text, scalar.span, id, 5);
      if (id !== undefined && own) return [{ named: { kind: 'table', file: facts.file, id }, span: own, role: 'reference', how: 'id' }];
    }
  }
  if (key) return [];
  if (WORDS.has(last)) return mentionPlaces(facts, scalar.span);
  const listed = path.length === 1 || (path.length === 2 && name === 'name');
  if (listed && top === 'id') return at(facts.head.id === '' ? undefined : { kind: 'document', number: facts.head.id }, 'definition');
  if (listed && Object.hasOwn(LISTED, top)) return at(thingNamed(LISTED[top] as ThingKind, text, library));
  if (listed && top === 'roles') return at({ kind: 'role', file: facts.file, name: text }, 'definition');
  if (listed && top === 'symptoms') {
    const symptom = spellingsOf(registers.symptoms).get(foldText(text));
    return at(symptom === undefined ? undefined : { kind: 'symptom', name: symptom });
  }
  if (listed && top === 'requires') return at({ kind: 'document', number: text });
  if (last === 'models' || last === 'only on') return at(modelNamed(text, library) ?? thingNamed('option', text, library));
  return [];
}

function modelNamed(text: string, library: LibraryFacts): Named | undefined {
  return thingNamed('model', text, library);
}

function thingNamed(kind: ThingKind, text: string, { registers }: LibraryFacts): Named | undefined {
  const lists = {
    model: registers.models,
    option: registers.options,
    tool: registers.tools,
    consumable: registers.consumables,
    replacement: registers.replacements,
  } as const;
  const list = Object.hasOwn(lists, kind) ? lists[kind as keyof typeof lists] : [];
  const name = spellingsOf(list).get(foldText(text));
  return name === undefined ? undefined : { kind: 'thing', thing: kind, name };
}

// ---------------------------------------------------------------- addresses

function addresses(facts: ProcedureFacts): NamedPlace[] {
  const { file, tree } = facts;
  const out: NamedPlace[] = [];
  const id = (named: Named, attributes: Attributes | undefined): void => {
    const span = attributes?.id?.span;
    if (span) out.push({ named, span: { start: span.start + 1, end: span.end }, role: 'definition', how: 'id' });
  };
  for (const section of tree.sections) {
    const named: Named = { kind: 'section', file, id: section.id, title: section.title };
    out.push({ named, span: section.titleSpan, role: 'definition', how: 'title' });
    id(named, section.attributes);
  }
  for (const { step } of facts.read.labels.steps) if (step.id !== undefined) id({ kind: 'step', file, id: step.id }, step.attributes);
  const blocks = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
  for (const table of eachBlock(blocks, 'table')) if (table.id !== undefined) id({ kind: 'table', file, id: table.id }, table.attributes);
  for (const figure of eachBlock(blocks, 'figure')) {
    const own = figure.id === undefined ? undefined : partSpan(facts.source.text, figure.span, `#${figure.id}`);
    if (own && figure.id !== undefined)
      out.push({
        named: { kind: 'figure', file, id: figure.id },
        span: { start: own.start + 1, end: own.end },
        role: 'definition',
        how: 'id',
      });
  }
  return out;
}

// ---------------------------------------------------------------- body

function bodyPlaces(facts: ProcedureFacts, library: LibraryFacts): NamedPlace[] {
  const out: NamedPlace[] = [];
  const blocks = [...facts.tree.preface, ...facts.tree.sections.flatMap((section) => section.blocks)];
  const cells = new Set<Prose>();
  for (const table of eachBlock(blocks, 'table'))
    for (const cell of [...table.head, ...table.rows.flatMap((row) => row.cells)]) cells.add(cell.prose);
  for (const prose of eachProse(blocks)) {
    const marks = prose.marks.filter((mark) => mark.kind === 'reference');
    for (const mark of marks) for (const place of referencePlaces(mark, facts, library)) out.push({ ...place, around: mark.span });
    const inMark = (at: number, end: number): boolean =>
      prose.marks.some((mark) => mark.kind !== 'strong' && mark.kind !== 'em' && mark.at < end && at < mark.end);
    for (const { thing, at, end } of mentionsIn(prose.text, facts.names)) {
      if (inMark(at, end)) continue;
      const named = namedOf(thing, facts.file, () => undefined);
      if (named) out.push({ named, span: proseSpan(prose, at, end), role: cells.has(prose) ? 'table' : 'mention', how: 'prose' });
    }
    out.push(...titleMentions(prose, facts, inMark));
  }
  return out;
}

function sectionIdIn(facts: ProcedureFacts): (title: string) => string | undefined {
  return (title) => facts.tree.sections.find((section) => foldText(section.title) === foldText(title))?.id;
}

function referencePlaces(mark: ReferenceMark, facts: ProcedureFacts, library: LibraryFacts): readonly NamedPlace[] {
  const { form } = mark;
  const { file } = facts;
  const inside: Span = { start: mark.span.start + 1, end: mark.span.end - 1 };
  const part = (text: string, from = 0): Span | undefined => partSpan(facts.source.text, inside, text, from);
  const place = (named: Named | undefined, span: Span | undefined, how: NamedPlace['how']): readonly NamedPlace[] =>
    named && span ? [{ named, span, role: 'reference', how }] : [];
  switch (form.kind) {
    case 'step':
      return place({ kind: 'step', file, id: form.id }, part(form.id, 'step'.length), 'id');
    case 'steps': {
      const from = part(form.from, 'steps'.length);
      const to = from && part(form.to, from.end - inside.start);
      return [...place({ kind: 'step', file, id: form.from }, from, 'id'), ...place({ kind: 'step', file, id: form.to }, to, 'id')];
    }
    case 'table':
    case 'figure':
      return place({ kind: form.kind, file, id: form.id }, part(form.id, form.kind.length), 'id');
    case 'section':
      return sectionPlaces(form, inside, facts, library);
    case 'name': {
      const things = facts.names.lookup(form.name);
      const [thing] = things;
      return things.length === 1 && thing
        ? place(namedOf(thing, file, sectionIdIn(facts)), inside, thing.kind === 'section' ? 'title' : 'prose')
        : [];
    }
    default:
      return [];
  }
}

/** [section Title], [section #id], [OM-2220: Title]: the number and the title are two places. */
function sectionPlaces(
  form: { readonly title?: string; readonly id?: string; readonly document?: string },
  inside: Span,
  facts: ProcedureFacts,
  library: LibraryFacts,
): readonly NamedPlace[] {
  const { text } = facts.source;
  const out: NamedPlace[] = [];
  let from = 'section'.length;
  let owner: ProcedureFacts | undefined = facts;
  if (form.document !== undefined) {
    const { document } = form;
    const span = partSpan(text, inside, document);
    if (span) out.push({ named: { kind: 'document', number: document }, span, role: 'reference', how: 'id' });
    from = span ? span.end - inside.start : 0;
    owner = library.procedures.find(({ head }) => head.id === document);
  }
  const section = owner?.tree.sections.find((one) =>
    form.id === undefined ? foldText(one.title) === foldText(form.title ?? '') : one.id === form.id,
  );
  if (!owner || !section) return out;
  const named: Named = { kind: 'section', file: owner.file, id: section.id, title: section.title };
  if (form.id !== undefined) {
    const span = partSpan(text, inside, form.id, from);
    if (span) out.push({ named, span, role: 'reference', how: 'id' });
  } else {
    // The title is the rest of the bracket, line breaks and all.
    const start = inside.start + from + (/^[\s:]*/.exec(text.slice(inside.start + from, inside.end))?.[0].length ?? 0);
    out.push({ named, span: { start, end: inside.end }, role: 'reference', how: 'title' });
  }
  return out;
}

/** A section's title in plain words after "as in", "section" and the like: the reader follows it too. */
function titleMentions(prose: Prose, facts: ProcedureFacts, inMark: (at: number, end: number) => boolean): NamedPlace[] {
  const out: NamedPlace[] = [];
  const lower = prose.text.toLowerCase();
  for (const { title, id } of facts.tree.sections) {
    const wanted = title.toLowerCase();
    for (let at = lower.indexOf(wanted); at !== -1 && wanted !== ''; at = lower.indexOf(wanted, at + 1)) {
      const end = at + wanted.length;
      const before = prose.text.slice(Math.max(0, at - 40), at);
      if (inMark(at, end) || /[\p{L}\p{N}]/u.test(prose.text[end] ?? '')) continue;
      const step = /\bsteps?\s+\w+(?:\s*(?:to|through|-|–|and)\s*\w+)?\s+(?:of|in|under)\s+(?:the\s+)?$/i.test(before);
      if (!step && !/\b(?:section|as in|as under)\s+["“]?$/i.test(before)) continue;
      const named: Named = { kind: 'section', file: facts.file, id, title };
      out.push({ named, span: proseSpan(prose, at, end), role: 'mention', how: 'title' });
    }
  }
  return out;
}

/** Names in the words of a front matter field, on the source as it stands. */
function mentionPlaces(facts: ProcedureFacts, span: Span): readonly NamedPlace[] {
  return mentionsIn(facts.source.text.slice(span.start, span.end), facts.names).flatMap(({ thing, at, end }): NamedPlace[] => {
    const named = namedOf(thing, facts.file, () => undefined);
    return named ? [{ named, span: { start: span.start + at, end: span.start + end }, role: 'mention', how: 'prose' }] : [];
  });
}
