/** Whether the registers agree with each other: every name that one entry uses is registered. One table says which field names what. */
import { foldText, type YamlFile, type YamlNode, type YamlScalar, yamlGet } from '../format/index.ts';
import { describeField, type SchemaName } from '../schemas/index.ts';
import { familyProblems } from './agreement-family.ts';
import { modelProblems } from './agreement-models.ts';
import { entriesOf, scalarsOf } from './fields.ts';
import { spellingsOf } from './look-up.ts';
import type { Registers } from './model.ts';
import { nearestNames } from './nearest.ts';
import { type SchemaProblem, withArticle } from './problem.ts';

/** A set of names that a field may name, with how people call one of them. */
export interface Known {
  readonly noun: string;
  readonly names: readonly string[];
  readonly spellings: ReadonlyMap<string, string>;
}

export function knownOf(noun: string, things: readonly { readonly name: string; readonly aliases?: readonly string[] }[]): Known {
  return { noun, names: things.map(({ name }) => name), spellings: spellingsOf(things) };
}

/** A problem for every scalar of the field that names none of the known. `owner` is the entry it stands in, as people call it. */
export function unknownNames(field: YamlNode | undefined, known: Known, owner: string, path: string): SchemaProblem[] {
  return scalarsOf(field)
    .filter((scalar) => !known.spellings.has(foldText(scalar.text)))
    .map((scalar) => unknownName(scalar, known, owner, path));
}

function unknownName(scalar: YamlScalar, known: Known, owner: string, path: string): SchemaProblem {
  const [nearest] = nearestNames(foldText(scalar.text), known.names, 1);
  const listed = [...new Set(known.names)].sort().join(', ');
  return {
    span: scalar.span,
    message: `${owner} names ${withArticle(known.noun)} "${scalar.text}" that is not registered${nearest ? `; did you mean "${nearest}"?` : '.'}`,
    actual: scalar.text,
    expected: nearest ?? (known.names.length === 0 ? `${withArticle(known.noun)} to be registered first` : `one of ${listed}`),
    path,
  };
}

/**
 * Free text of which some words mean something to the checks ("torque wrench"): a word that is all but one of them is a slip, and
 * would be taken for a word that means nothing.
 */
export function slips(field: YamlNode | undefined, words: readonly string[], owner: string, path: string): SchemaProblem[] {
  return scalarsOf(field).flatMap((scalar): SchemaProblem[] => {
    const typed = foldText(scalar.text);
    // Short words are too near each other: "rag" is no slip for "tag".
    const near = typed.length < 6 || words.some((word) => foldText(word) === typed) ? undefined : nearestNames(typed, words, 1)[0];
    if (near === undefined) return [];
    const message = `${owner} says "${scalar.text}"; did you mean "${near}"?`;
    return [{ span: scalar.span, message, actual: scalar.text, expected: near, path }];
  });
}

export function agreementProblems(files: readonly YamlFile[], registers: Registers): ReadonlyMap<string, readonly SchemaProblem[]> {
  const out = new Map<string, readonly SchemaProblem[]>();
  for (const { source, root } of files) {
    const found = [
      ...entriesOf(yamlGet(root, 'families')).flatMap((entry) => familyProblems(entry, registers)),
      ...modelProblems(root, registers),
      ...otherProblems(source.path, root, registers),
    ];
    if (found.length > 0) out.set(source.path, found);
  }
  return out;
}

function otherProblems(file: string, root: YamlNode | undefined, registers: Registers): SchemaProblem[] {
  const families = knownOf('family', registers.families);
  const models = knownOf('model', registers.models);
  const options = knownOf('option', registers.options);
  const documents = knownOf(
    'document',
    registers.documents.map(({ number, aliases }) => ({ name: number, aliases })),
  );
  const protective = knownOf(
    'piece of protective equipment',
    registers.tools.filter((tool) => tool.protective),
  );
  const renewable = knownOf(
    'part',
    registers.families.flatMap((family) => [...family.parts, ...family.fasteners, ...family.covers, ...family.gauges, ...family.points]),
  );
  const fitting: Known = {
    noun: 'model or option',
    names: [...models.names, ...options.names],
    spellings: new Map([...options.spellings, ...models.spellings]),
  };
  const rows: readonly (readonly [register: SchemaName, noun: string, fields: readonly (readonly [string, Known])[]])[] = [
    ['tools', 'tool', [['only on', fitting]]],
    [
      'consumables',
      'consumable',
      [
        ['safety data', documents],
        ['needs', protective],
        ['only on', fitting],
      ],
    ],
    [
      'parts',
      'replacement part',
      [
        ['models', models],
        ['renews', renewable],
        ['only on', fitting],
      ],
    ],
    ['symptoms', 'symptom', [['family', families]]],
  ];
  const out: SchemaProblem[] = [];
  for (const [register, noun, fields] of rows) {
    if (!new RegExp(`(?:^|/)${register}\\.ya?ml$`).test(file)) continue;
    for (const { name, value } of entriesOf(yamlGet(root, register))) {
      const owner = `The ${noun} "${name}"`;
      const words = describeField(register, [register, name, 'kind'])?.examples ?? [];
      out.push(...slips(yamlGet(value, 'kind'), words, owner, `${register} / ${name} / kind`));
      for (const [field, known] of fields)
        out.push(...unknownNames(yamlGet(value, field), known, owner, `${register} / ${name} / ${field}`));
      const tries = yamlGet(value, 'procedures');
      if (register === 'symptoms' && tries?.kind === 'seq')
        for (const item of tries.items) {
          out.push(...unknownNames(yamlGet(item, 'models'), models, owner, `symptoms / ${name} / procedures / models`));
          out.push(...unknownNames(yamlGet(item, 'options'), options, owner, `symptoms / ${name} / procedures / options`));
        }
    }
  }
  if (/(?:^|\/)library\.ya?ml$/.test(file)) out.push(...patternProblems(yamlGet(root, 'document numbers')));
  return out;
}

function patternProblems(node: YamlNode | undefined): SchemaProblem[] {
  if (node?.kind !== 'scalar' || node.text === '') return [];
  try {
    new RegExp(`^(?:${node.text})$`, 'u');
    return [];
  } catch {
    return [
      {
        span: node.span,
        message: `"document numbers" is not a regular expression that can be read: "${node.text}".`,
        actual: node.text,
        expected: 'a pattern such as OM-\\d{4}, with every bracket closed',
        path: 'document numbers',
      },
    ];
  }
}
