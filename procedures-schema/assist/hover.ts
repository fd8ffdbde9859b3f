/** What stands at a place, explained: a registered thing, where a reference leads, a quantity in both units, a field, how the sentence was read. */
import { eachSentence, type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { foldText, proseSpan } from '../format/index.ts';
import {
  compareDual,
  converted,
  decimalMarkOf,
  findQuantities,
  limitModel,
  otherUnit,
  printQuantity,
  type Quantity,
  rangeName,
  sameKind,
} from '../quantities/index.ts';
import { familiesOf } from '../registers/index.ts';
import { describeField } from '../schemas/index.ts';
import { schemaOf } from './field-choices.ts';
import { limitLines, linesOf } from './limit-lines.ts';
import type { Hover, Named } from './model.ts';
import { placeAt, placesIn } from './places.ts';
import { yamlVisits } from './places-yaml.ts';
import { actionWords, clipped } from './reading-words.ts';
import { thingLines } from './thing-words.ts';
import { definitionOfNamed } from './uses.ts';

/** What is nearest first. Empty where nothing is to be said. */
export function hover(path: string, offset: number, library: LibraryFacts): readonly Hover[] {
  const facts = library.procedures.find(({ file }) => file === path);
  return [
    ...nameHover(path, offset, library),
    ...(facts ? limitHover(facts, offset, library) : []),
    ...quantityHover(path, offset, library),
    ...fieldHover(path, offset, library),
    ...(facts ? readingHover(facts, offset, library) : []),
  ];
}

// ---------------------------------------------------------------- names and addresses

function nameHover(path: string, offset: number, library: LibraryFacts): readonly Hover[] {
  const place = placeAt(path, offset, library);
  if (!place) return [];
  const { named } = place;
  const inside = place.span.start <= offset && offset <= place.span.end;
  const span = inside ? place.span : (place.around ?? place.span);
  const goTo = definitionOfNamed(named, library);
  const told =
    named.kind === 'thing'
      ? { title: named.name, lines: thingLines({ ...named, kind: named.thing }, library.registers) }
      : targetOf(named, library);
  return [{ span, kind: named.kind === 'thing' ? 'thing' : 'reference', ...told, ...(goTo ? { goTo } : {}) }];
}

function targetOf(
  named: Exclude<Named, { readonly kind: 'thing' }>,
  library: LibraryFacts,
): { readonly title: string; readonly lines: readonly string[] } {
  const facts = 'file' in named ? library.procedures.find(({ file }) => file === named.file) : undefined;
  switch (named.kind) {
    case 'measurement': {
      const own = facts?.head.measurements.find(({ name }) => name === named.name);
      const limits = facts ? limitLines(named.name, facts, library) : [];
      return {
        title: named.name,
        lines: [
          `Measurement: ${own?.sensed ? 'pass or fail' : (own?.quantity ?? '')}.`,
          ...(own?.at === undefined ? [] : [`At: ${own.at}.`]),
          ...(own?.with === undefined ? [] : [`With the ${own.with}.`]),
          ...(own?.sensed ? [`Passes: ${own.sensed.pass}.`, `Fails: ${own.sensed.fail}.`] : limits.map((line) => `Limits: ${line}.`)),
        ],
      };
    }
    case 'role':
      return { title: named.name, lines: ['A person with a part and a lock of their own.'] };
    case 'step': {
      const step = facts?.read.labels.byId.get(named.id);
      return {
        title: step ? `Step ${step.fullLabel}` : `#${named.id}`,
        lines: step ? [step.section.title, clipped(step.step.lead.text)] : ['No step has this id.'],
      };
    }
    case 'section': {
      const section = facts?.tree.sections.find(({ id }) => id === named.id);
      const first = facts?.read.labels.steps.find((step) => step.section === section);
      const count = facts?.read.labels.steps.filter((step) => step.section === section && step.path.length === 1).length ?? 0;
      const kind = section?.prose
        ? 'Section of prose.'
        : `Section of ${count} ${count === 1 ? 'step' : 'steps'}${section?.aside ? ', only called or jumped to' : ''}.`;
      return { title: named.title, lines: [kind, ...(first ? [`${first.label}. ${clipped(first.step.lead.text)}`] : [])] };
    }
    case 'table':
    case 'figure':
      return { title: `${named.kind} #${named.id}`, lines: [`A ${named.kind} of this procedure.`] };
    case 'document': {
      const other = library.procedures.find(({ head }) => head.id === named.number);
      const guide = library.guides.find(({ head }) => head.id === named.number);
      if (!other)
        return { title: named.number, lines: [guide ? `Guide: ${guide.head.title}.` : 'No procedure of this library has this number.'] };
      const { title, models, startsWith, endsWith, revision } = other.head;
      return {
        title: `${named.number} ${title}`,
        lines: [
          `Procedure for ${models.map(({ name }) => name).join(', ')}${revision === undefined ? '' : `, revision ${revision}`}.`,
          `Starts with: ${startsWith}. Ends with: ${endsWith ?? 'not said'}.`,
        ],
      };
    }
    case 'attribute':
      return { title: named.name, lines: [`Attribute of models of the ${named.family}:`, ...attributeLines(named, library)] };
    case 'symptom': {
      const own = library.registers.symptoms.find(({ name }) => name === named.name);
      return {
        title: named.name,
        lines: ['Symptom.', ...(own ? [`Tried in this order: ${own.procedures.map(({ number }) => number).join(', ')}.`] : [])],
      };
    }
  }
}

/** What each model has: "DL-25 from 2200: 28 mm". */
function attributeLines({ family, name }: Extract<Named, { kind: 'attribute' }>, { registers }: LibraryFacts): readonly string[] {
  return registers.models
    .filter((model) => model.family === family)
    .flatMap((model) =>
      limitModel(model.name, registers).ranges.flatMap(({ serial, attributes }) =>
        Object.entries(attributes)
          .filter(([one]) => foldText(one) === foldText(name))
          .map(([, value]) => `${rangeName(model.name, serial)}: ${value}`),
      ),
    );
}

// ---------------------------------------------------------------- limits

/** A formula in a row of a table, with what it comes to. */
function limitHover(facts: ProcedureFacts, offset: number, library: LibraryFacts): readonly Hover[] {
  return measuredOf(facts, library.registers).flatMap(({ measurement, table, limits }) => {
    const row = table?.rows.find(({ span }) => span.start <= offset && offset <= span.end);
    const own = row === undefined ? [] : limits.limits.filter(({ span, formula }) => span === row.span && formula !== undefined);
    const [first] = own;
    if (row === undefined || first?.formula === undefined) return [];
    return [
      {
        span: row.span,
        kind: 'quantity',
        title: first.formula,
        lines: linesOf(own, library).map((line) => `${measurement.name}, ${line}.`),
      },
    ];
  });
}

// ---------------------------------------------------------------- quantities

function quantityHover(path: string, offset: number, library: LibraryFacts): readonly Hover[] {
  const source = placesIn(path, library)?.source;
  if (!source) return [];
  const start = source.text.lastIndexOf('\n', offset - 1) + 1;
  const stop = source.text.indexOf('\n', offset);
  // The second value stands in brackets of either kind.
  const line = source.text
    .slice(start, stop === -1 ? source.text.length : stop)
    .replaceAll('[', '(')
    .replaceAll(']', ')');
  const mark = decimalMarkOf(library.registers.house.language);
  const found = findQuantities(line, mark).find((one) => start + one.at <= offset && offset <= start + (one.second?.end ?? one.end));
  if (!found) return [];
  const { quantity, second } = found;
  const span: Span = { start: start + found.at, end: start + (second?.end ?? found.end) };
  const written = second?.quantity.unit;
  const other = written && sameKind(written, quantity.unit) ? written : otherUnit(quantity.unit);
  const lines = [`${quantity.unit.kind[0]?.toUpperCase()}${quantity.unit.kind.slice(1)}.`];
  if (other) {
    const twin = converted(quantity, other);
    lines.push(`${plain(twin, mark)} (${isExact(quantity, twin) ? 'exact' : 'rounded'}).`);
  }
  if (second) {
    const verdict = compareDual(quantity, second.quantity, mark);
    lines.push(
      verdict.kind === 'agree'
        ? 'The value in brackets agrees within the digits written.'
        : verdict.kind === 'other quantity'
          ? 'The value in brackets is another quantity.'
          : `The value in brackets ${verdict.kind === 'looser' ? 'is looser than the first' : 'differs'}; it should read ${verdict.shouldRead.replace(/\u00a0/g, ' ')}.`,
    );
  }
  return [{ span, kind: 'quantity', title: plain(quantity, mark), lines }];
}

const plain = (quantity: Quantity, mark: 'point' | 'comma'): string => printQuantity(quantity, mark).replace(/\u00a0/g, ' ');

/** Whether the twin, taken back, is the same value to the last digit. */
function isExact(quantity: Quantity, twin: Quantity): boolean {
  const back = converted(twin, quantity.unit);
  const pairs = (['nominal', 'lower', 'upper', 'plus', 'minus'] as const).map((key) => [quantity[key], twin[key], back[key]] as const);
  return pairs.every(([own, other, again]) => {
    if (!own || !other || !again) return own === other;
    return exactly(own.value, quantity, other.value, twin);
  });
}

function exactly(a: { n: bigint; d: bigint }, from: Quantity, b: { n: bigint; d: bigint }, to: Quantity): boolean {
  const base = (value: { n: bigint; d: bigint }, { unit }: Quantity) => {
    const n = value.n * unit.factor.n * unit.offset.d + unit.offset.n * value.d * unit.factor.d;
    return { n, d: value.d * unit.factor.d * unit.offset.d };
  };
  const [left, right] = [base(a, from), base(b, to)];
  return left.n * right.d === right.n * left.d;
}

// ---------------------------------------------------------------- fields

function fieldHover(path: string, offset: number, library: LibraryFacts): readonly Hover[] {
  const schema = schemaOf(path);
  const procedure = library.procedures.find(({ file }) => file === path);
  const guide = library.guides.find(({ file }) => file === path);
  const register = library.registerFiles.find(({ file }) => file.source.path === path)?.file;
  const root = procedure?.tree.front?.root ?? guide?.tree.front?.root ?? register?.root;
  const source = procedure?.source ?? guide?.tree.source ?? register?.source;
  if (schema === undefined || !root || !source) return [];
  const visit = yamlVisits(root, source.text).find(({ scalar, key }) => key && scalar.span.start <= offset && offset <= scalar.span.end);
  if (!visit) return [];
  const name = visit.scalar.text.trim();
  const holder = describeField(schema, visit.path);
  // A name of the writer's own is no field.
  if (!holder?.fields.includes(name)) return [];
  const note = describeField(schema, [...visit.path, name]);
  if (!note) return [];
  const lines = [
    note.description,
    ...(holder.required.includes(name) ? ['Required.'] : []),
    ...(note.values.length > 0 ? [`One of: ${note.values.join(', ')}.`] : []),
    ...(note.examples.length > 0 ? [`For example: ${note.examples.join(', ')}.`] : []),
  ].filter((line) => line !== '');
  return [{ span: visit.scalar.span, kind: 'field', title: name, lines }];
}

// ---------------------------------------------------------------- reading

function readingHover(facts: ProcedureFacts, offset: number, library: LibraryFacts): readonly Hover[] {
  const families = familiesOf(facts.head, library.registers);
  const own = eachSentence(facts.read).find(({ span, kind }) => kind !== 'condition' && span.start <= offset && offset < span.end);
  if (!own) return [];
  const { sentence, prose, step } = own;
  const lines = sentence.actions.map((action) => `${actionWords(action, families)}.`);
  const silent = {
    read: [],
    confirmation: ['Asks to confirm; changes nothing.'],
    prohibition: ['Forbids; changes nothing.'],
    remark: ['A remark; changes nothing.'],
    unread: [],
  };
  const why = sentence.status === 'unread' ? [`Not read: ${sentence.why ?? 'it could not be resolved'}. It protects nobody.`] : [];
  return [
    {
      span: proseSpan(prose, sentence.at, sentence.end),
      kind: 'reading',
      title: `Step ${step.fullLabel} is read as`,
      lines: [...lines, ...(lines.length === 0 ? silent[sentence.status] : []), ...why],
    },
  ];
}
