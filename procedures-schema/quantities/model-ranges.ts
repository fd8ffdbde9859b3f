/**
 * Models as limits see them: one set of attributes, or one for each range of serial numbers where they differ. And which of them the
 * words at the head of a row name: "DL-25", "DL-25 from 2200".
 */
import { foldText } from '../format/index.ts';
import { type ProcedureHead, type Registers, serialWords, type Variant } from '../registers/index.ts';
import type { Attributes } from './formula.ts';

export type SerialBounds = NonNullable<Variant['serial']>;

export interface ModelRange {
  /** Absent: the whole model. */
  readonly serial?: SerialBounds;
  readonly attributes: Attributes;
}

export interface LimitModel {
  /** As registered; as typed where it is not. */
  readonly name: string;
  /** Folded; the name is among them. */
  readonly spellings: readonly string[];
  /** Never empty: in order, no gap, no overlap. */
  readonly ranges: readonly ModelRange[];
}

/** The models a procedure is for, in its order, each once. The same value for the same head and registers. */
export function limitModels(head: Pick<ProcedureHead, 'models'>, registers: Registers): readonly LimitModel[] {
  const known = MODELS.get(head);
  if (known?.registers === registers) return known.models;
  const all = head.models.map(({ name }) => limitModel(name, registers));
  const models = all.filter(({ name }, index) => all.findIndex((other) => other.name === name) === index);
  MODELS.set(head, { registers, models });
  return models;
}

/** Each check and each machine asks. */
const MODELS = new WeakMap<object, { readonly registers: Registers; readonly models: readonly LimitModel[] }>();

export function limitModel(typed: string, registers: Registers): LimitModel {
  const folded = foldText(typed);
  const model =
    registers.models.find(({ name }) => foldText(name) === folded) ??
    registers.models.find(({ aliases }) => aliases?.some((alias) => foldText(alias) === folded));
  if (model === undefined) return { name: typed, spellings: [folded], ranges: [{ attributes: {} }] };
  const [only, ...more] = model.serials;
  const ranges =
    more.length === 0
      ? [{ attributes: { ...model.attributes, ...only?.attributes } }]
      : model.serials.map(({ from, to, attributes }) => ({
          serial: { ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) },
          attributes: { ...model.attributes, ...attributes },
        }));
  return { name: model.name, spellings: [model.name, ...(model.aliases ?? [])].map(foldText), ranges };
}

/** "DL-25", "DL-25 up to 2199". */
export const rangeName = (model: string, serial: SerialBounds | undefined): string =>
  serial === undefined ? model : `${model} ${serialWords(serial)}`;

export interface NamedRange {
  readonly model: LimitModel;
  readonly serial?: SerialBounds;
}

/** undefined: no model of these, or words after it that are no range. */
export function namedRange(typed: string, models: readonly LimitModel[]): NamedRange | undefined {
  const folded = foldText(typed);
  let best: { readonly model: LimitModel; readonly length: number } | undefined;
  for (const model of models)
    for (const spelling of model.spellings)
      if (folded.startsWith(spelling) && !/^[\p{L}\p{N}]/u.test(folded.slice(spelling.length)) && spelling.length > (best?.length ?? 0))
        best = { model, length: spelling.length };
  if (best === undefined) return undefined;
  const rest = folded.slice(best.length).trim();
  if (rest === '') return { model: best.model };
  const serial = boundsIn(rest);
  return serial && { model: best.model, serial };
}

const BOUNDS =
  /^[,(]?\s*(?:serials?(?: numbers?)? )?(?:(up to|to|until|from) )?(?:serials?(?: numbers?)? )?(\d{1,9})(?:\s*(?:to|-|–)\s*(\d{1,9})| (onwards?|on|and up))?\s*\)?$/;

function boundsIn(words: string): SerialBounds | undefined {
  const [, word, first, second, on] = BOUNDS.exec(words) ?? [];
  if (first === undefined) return undefined;
  if (second !== undefined) return word === undefined || word === 'from' ? { from: Number(first), to: Number(second) } : undefined;
  if (word === 'from' || (word === undefined && on !== undefined)) return { from: Number(first) };
  return word === undefined || on !== undefined ? undefined : { to: Number(first) };
}

const LAST = Number.MAX_SAFE_INTEGER;

/** Whether all of `inner` lies in `outer`; undefined bounds nothing. */
export const holdsSerial = (outer: SerialBounds | undefined, inner: SerialBounds | undefined): boolean =>
  outer === undefined || ((outer.from ?? 0) <= (inner?.from ?? 0) && (inner?.to ?? LAST) <= (outer.to ?? LAST));

const meetsSerial = (a: SerialBounds | undefined, b: SerialBounds | undefined): boolean =>
  (a?.from ?? 0) <= (b?.to ?? LAST) && (b?.from ?? 0) <= (a?.to ?? LAST);

/** The ranges of the register that a row is for; undefined where it cuts one in two: then a machine would have two limits. */
export function rangesIn({ model, serial }: NamedRange): readonly ModelRange[] | undefined {
  const met = model.ranges.filter((range) => meetsSerial(serial, range.serial));
  return met.length > 0 && met.every((range) => holdsSerial(serial, range.serial)) ? met : undefined;
}
