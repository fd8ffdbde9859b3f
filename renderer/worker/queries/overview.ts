/** The library in one list: each document with what a writer must see of it at a glance. */
import type { LibraryModel } from '../library-model.ts';
import { factsByFile, type SignatureState } from '../signatures.ts';
import { asLastKnown } from './last-known.ts';

export interface DocumentLine {
  readonly file: string;
  readonly kind: 'procedure' | 'guide';
  readonly number: string;
  readonly title: string;
  readonly revision: string;
  readonly families: readonly string[];
  readonly models: readonly string[];
  readonly symptoms: readonly string[];
  readonly verdict: 'proved' | 'refuted' | 'not proved' | undefined;
  /** Undefined, as the next: not looked up yet. */
  readonly openRemarks: number | undefined;
  readonly signature: SignatureState | undefined;
  /** Of a guide: numbers of what it binds in, in its order. */
  readonly binds?: readonly string[];
  /** Not read yet: what stands here is guessed from its first lines. */
  readonly waits?: true;
  /** Its front matter cannot be read: some of this is as it was last known. */
  readonly unread?: true;
}

export interface Overview {
  readonly publisher: string;
  readonly documents: readonly DocumentLine[];
  readonly models: readonly string[];
  /** The same under their machine, in the order of the register. */
  readonly machines: readonly { readonly family: string; readonly models: readonly string[] }[];
  readonly registers: readonly string[];
}

/** Of a procedure that was not read, for its place in the list only. */
const modelsGuessed = (text: string): readonly string[] => {
  const written = /^models:[ \t]*(?:\[(.*)\][ \t]*|((?:\r?\n[ \t]+- .*)+))$/m.exec(text);
  return (written?.[1]?.split(',') ?? written?.[2]?.split(/\r?\n[ \t]+- /) ?? []).map((name) => name.trim());
};

/** What is new since it was asked for last: of a library of thousands, one key changes one line. */
export interface OverviewNews extends Omit<Overview, 'documents'> {
  /** New, or different. */
  readonly lines: readonly DocumentLine[];
  /** Files that are documents no more. */
  readonly gone: readonly string[];
}

interface Told extends State {
  /** What the line was made of; while these are the same, so is the line. */
  readonly of: unknown;
  readonly registers: unknown;
  readonly text: string;
  readonly line: Bare;
}
type State = Pick<DocumentLine, 'openRemarks' | 'signature'>;
/** Without what reviewers said of it. */
type Bare = Omit<DocumentLine, keyof State>;
let told = new Map<string, Told>();
let around = '';

/** Undefined: as it was told last. */
export function overview(model: LibraryModel, _: Record<string, never>): OverviewNews | undefined {
  const { facts, heads, texts, signatures } = model;
  const { registers } = facts;
  const now = new Map<string, Told>();
  signatures.beginList();
  const lines: DocumentLine[] = [];
  // Made for the first one signed only: most libraries have few, and this is asked at every key.
  let files: ReturnType<typeof factsByFile> | undefined;
  const filesNow = () => {
    files ??= factsByFile(facts);
    return files;
  };
  const look = <T>(file: string, read: string, of: T, make: (of: T, before: Bare | undefined) => Bare): void => {
    const before = told.get(file);
    const number = read === '' ? (before?.line.number ?? '') : read;
    const openRemarks = signatures.openRemarks(model, number);
    const signed = signatures.stateOf(model, file, number, filesNow);
    // Without its number nobody can look up whether they hold; that the text is not what was signed is sure.
    const signature = signed === undefined && number !== read ? 'stale' : signed;
    if (before?.of === of && before.registers === registers && before.openRemarks === openRemarks && before.signature === signature) {
      now.set(file, before);
      return;
    }
    const line = make(of, before?.line);
    const all = { ...line, openRemarks, signature };
    const text = JSON.stringify(all);
    now.set(file, { of, registers, openRemarks, signature, text, line });
    if (text !== before?.text) lines.push(all);
  };
  const listing = listingOf(facts);
  for (const one of facts.procedures)
    look(one.file, one.head.id, one, (own, before) => listing.procedure(own, before, texts.get(own.file) ?? ''));
  for (const [file, head] of heads) look(file, head.id, head, (own) => listing.waiting(file, own, texts.get(file) ?? ''));
  for (const one of facts.guides) look(one.file, one.head.id, one, guideLine);
  const gone = [...told.keys()].filter((file) => !now.has(file));
  told = now;
  const rest = {
    publisher: registers.house.publisher,
    models: registers.models.map(({ name }) => name),
    machines: machinesOf(registers.models),
    registers: facts.registerFiles.map(({ file }) => file.source.path),
  };
  const before = around;
  around = JSON.stringify(rest);
  return lines.length === 0 && gone.length === 0 && around === before ? undefined : { lines, gone, ...rest };
}

function machinesOf(models: LibraryModel['facts']['registers']['models']): Overview['machines'] {
  const machines = new Map<string, string[]>();
  for (const { name, family } of models) {
    const own = machines.get(family);
    if (own) own.push(name);
    else machines.set(family, [name]);
  }
  return [...machines].map(([family, own]) => ({ family, models: own }));
}

type Head = LibraryModel['heads'] extends ReadonlyMap<string, infer H> ? H : never;

function listingOf({ registers }: LibraryModel['facts']) {
  const family = new Map(registers.models.map((model) => [model.name, model.family]));
  const symptoms = new Map<string, string[]>();
  for (const { name, procedures } of registers.symptoms)
    for (const { number } of procedures) symptoms.set(number, [...(symptoms.get(number) ?? []), name]);
  const familiesOf = (models: readonly string[]): readonly string[] => [...new Set(models.flatMap((name) => family.get(name) ?? []))];
  return {
    procedure: ({ file, head, flow }: LibraryModel['facts']['procedures'][number], before: Bare | undefined, text: string): Bare => {
      const models = head.models.map(({ name }) => name);
      const verdicts = flow.verdicts.map(({ verdict }) => verdict);
      const line: Bare = {
        file,
        kind: 'procedure',
        number: head.id,
        title: head.title,
        revision: head.revision ?? '',
        families: familiesOf(models),
        models,
        symptoms: symptoms.get(head.id) ?? [],
        // Without a machine nothing was walked; to say nothing would read like a proof.
        verdict: (['refuted', 'not proved', 'proved'] as const).find((one) => verdicts.includes(one)) ?? 'not proved',
      };
      const known = asLastKnown(line, { before, guessed: modelsGuessed(text), family });
      return { ...known, title: titleOf(file, { id: known.number, title: known.title }), symptoms: symptoms.get(known.number) ?? [] };
    },
    waiting: (file: string, head: Head, text: string): Bare => {
      const models = modelsGuessed(text).filter((name) => family.has(name));
      return {
        file,
        kind: 'procedure',
        number: head.id,
        title: titleOf(file, head),
        revision: '',
        families: familiesOf(models),
        models,
        symptoms: symptoms.get(head.id) ?? [],
        verdict: undefined,
        waits: true,
      };
    },
  };
}

/** A file that names itself in no way goes by its name on disk: a line without words can be neither found nor mended. */
const titleOf = (file: string, { id, title }: { readonly id: string; readonly title: string }): string =>
  id === '' && title === '' ? (file.split('/').at(-1) ?? file) : title;

const guideLine = ({ file, head, tree }: LibraryModel['facts']['guides'][number]): Bare => ({
  file,
  kind: 'guide',
  number: head.id,
  title: titleOf(file, head),
  revision: head.revision ?? '',
  families: [],
  models: [],
  symptoms: [],
  verdict: undefined,
  binds: [...new Set(tree.parts.flatMap(({ entries }) => entries.map(({ document }) => document)))],
});
