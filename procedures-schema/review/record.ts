/**
 * The review of one procedure, kept in the library as text beside it (review/NUMBER.yaml): remarks pinned to steps with their answers, accepted
 * readings, and who signed which text. Reads and writes that text; judges nothing.
 */
import { readYaml, yamlToPlain } from '../format/index.ts';

export interface Said {
  /** Initials. */
  readonly by: string;
  /** ISO date. */
  readonly on: string;
  readonly says: string;
}

export interface Remark extends Said {
  /** The words it is pinned to, and the label they had then. */
  readonly words: string;
  readonly label: string;
  readonly answers: readonly Said[];
  readonly settled?: { readonly by: string; readonly on: string };
}

export interface Signature {
  readonly by: string;
  readonly on: string;
  /** "writer", "reviewer", "safety officer": as the house says. */
  readonly as: string;
  readonly revision: string;
  /** SHA-256 of what was signed, in hex. */
  readonly hash: string;
  /** Readings said outright (F14) in that text, listed so that nobody signs them unseen. */
  readonly outright: readonly string[];
  /** What the proof said of it then; absent in signatures that were given for the words alone. */
  readonly verdict?: string;
}

export interface ReviewRecord {
  readonly remarks: readonly Remark[];
  readonly signatures: readonly Signature[];
  /** Keys of readings that somebody accepted, with initials. */
  readonly accepted: readonly { readonly key: string; readonly by: string; readonly words: string }[];
}

export const EMPTY_RECORD: ReviewRecord = { remarks: [], signatures: [], accepted: [] };

export const recordPath = (number: string): string => `review/${number.replace(/[^\w.-]+/g, '-')}.yaml`;

export interface ReadRecord {
  readonly record: ReviewRecord;
  /** What could not be read, in words; such entries are left out of `record` and would be lost by writing it. */
  readonly faults: readonly string[];
}

type Plain = Readonly<Record<string, unknown>>;

export function readRecord(path: string, text: string): ReadRecord {
  const { tree, problems } = readYaml(path, text);
  const plain = yamlToPlain(tree.root);
  const faults = problems.map(({ message }) => message);
  const root = isPlain(plain) ? plain : {};
  if (!isPlain(plain) && text.trim() !== '' && plain !== '') faults.push('This file is not a list of fields.');
  const list = <T>(name: string, read: (one: Plain) => T | undefined): T[] => {
    const value = root[name] ?? [];
    if (value !== '' && !Array.isArray(value)) faults.push(`"${name}" is not a list.`);
    return (Array.isArray(value) ? value : []).flatMap((one, index) => {
      const made = isPlain(one) ? read(one) : undefined;
      if (made === undefined) faults.push(`Entry ${index + 1} of "${name}" cannot be read.`);
      return made === undefined ? [] : [made];
    });
  };
  for (const name of Object.keys(root))
    if (!['remarks', 'signatures', 'accepted'].includes(name)) faults.push(`"${name}" is not known here.`);
  return {
    record: {
      remarks: list('remarks', remarkOf),
      signatures: list('signatures', signatureOf),
      accepted: list('accepted', (one) => (texts(one, 'key', 'by', 'words') ? pick(one, 'key', 'by', 'words') : undefined)),
    },
    faults,
  };
}

function remarkOf(one: Plain): Remark | undefined {
  if (!texts(one, 'words', 'label', 'by', 'on', 'says')) return undefined;
  const { answers = [], settled } = one;
  if (!Array.isArray(answers) || !answers.every((own) => isPlain(own) && texts(own, 'by', 'on', 'says'))) return undefined;
  if (settled !== undefined && !(isPlain(settled) && texts(settled, 'by', 'on'))) return undefined;
  return {
    ...pick(one, 'words', 'label', 'by', 'on', 'says'),
    answers: (answers as Plain[]).map((own) => pick(own, 'by', 'on', 'says')),
    ...(settled === undefined ? {} : { settled: pick(settled as Plain, 'by', 'on') }),
  };
}

function signatureOf(one: Plain): Signature | undefined {
  if (!texts(one, 'by', 'on', 'as', 'revision', 'hash')) return undefined;
  const { outright = [], verdict } = one;
  if (!Array.isArray(outright) || !outright.every((own) => typeof own === 'string')) return undefined;
  if (verdict !== undefined && typeof verdict !== 'string') return undefined;
  return {
    ...pick(one, 'by', 'on', 'as', 'revision', 'hash'),
    outright: outright as string[],
    ...(verdict === undefined ? {} : { verdict }),
  };
}

const isPlain = (value: unknown): value is Plain => typeof value === 'object' && value !== null && !Array.isArray(value);
const texts = (one: Plain, ...names: readonly string[]): boolean => names.every((name) => typeof one[name] === 'string');
const pick = <K extends string>(one: Plain, ...names: readonly K[]): Readonly<Record<K, string>> =>
  Object.fromEntries(names.map((name) => [name, one[name]])) as Record<K, string>;

// ---------------------------------------------------------------- writing

/** Always written whole and in one form, so that two reviewers' files differ only where they said different things. */
export function writeRecord(number: string, { remarks, signatures, accepted }: ReviewRecord): string {
  const lines = [`# Review of ${number}: remarks, accepted readings and signatures. Written by Handsclear; it may be edited by hand.`];
  if (remarks.length > 0) lines.push('remarks:');
  for (const { words, label, by, on, says, answers, settled } of remarks) {
    lines.push(...entry({ words, label, by, on, says }));
    if (answers.length > 0) lines.push('    answers:', ...answers.flatMap((own) => entry(own).map((line) => `    ${line}`)));
    if (settled) lines.push(`    settled: { by: ${quoted(settled.by)}, on: ${quoted(settled.on)} }`);
  }
  if (accepted.length > 0) lines.push('accepted:', ...accepted.flatMap(({ key, by, words }) => entry({ key, by, words })));
  if (signatures.length > 0) lines.push('signatures:');
  for (const { by, on, as, revision, hash, outright, verdict } of signatures) {
    lines.push(...entry({ by, on, as, revision, hash, ...(verdict === undefined ? {} : { verdict }) }));
    if (outright.length > 0) lines.push('    outright:', ...outright.map((text) => `      - ${quoted(text)}`));
  }
  return `${lines.join('\n')}\n`;
}

const entry = (fields: object): string[] =>
  Object.entries(fields as Readonly<Record<string, string>>).map(
    ([name, value], index) => `${index === 0 ? '  - ' : '    '}${name}: ${quoted(value)}`,
  );

/** A double-quoted scalar of YAML, whose escapes are those of JSON for all that JSON escapes. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(
    /[\u007f-\u00a0\u2028\u2029\ufeff\ufffd\ufffe\uffff]/g,
    (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
