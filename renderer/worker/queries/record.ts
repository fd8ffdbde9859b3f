/** The review of one procedure or guide: its remarks in the text of today, what a signer must see, and the name of what would be signed. */
import { marginOf, type OverrideSaid, overridesIn } from '../../../procedures-schema/assist/index.ts';
import type { ProcedureFacts } from '../../../procedures-schema/index.ts';
import {
  boundIn,
  linesOfGuide,
  linesOfSteps,
  type PinLine,
  type Pinned,
  pinsOf,
  type ReadRecord,
  readRecord,
  recordPath,
  signatureHolds,
  verdictOf,
} from '../../../procedures-schema/review/index.ts';
import { contentHash } from '../../../publishing/index.ts';
import type { LibraryModel } from '../library-model.ts';
import { openIn as openRemarksIn, signedIn } from '../signatures.ts';

export interface ReviewOf extends ReadRecord {
  readonly path: string;
  readonly number: string;
  readonly revision: string;
  readonly pins: readonly Pinned[];
  /** Names the text with all that its proof and its checklist take from elsewhere. Empty: not known yet, or not asked for. */
  readonly hash: string;
  /** Of a guide the worst of what it binds in. */
  readonly verdict: ReturnType<typeof verdictOf>;
  readonly outright: readonly OverrideSaid[];
  /** Readings that the proof rests on and nobody has accepted: key and words, each once. */
  readonly toAccept: readonly { readonly key: string; readonly words: string; readonly label: string }[];
  /** What a guide binds in, each with what stands in its own review. */
  readonly bound: readonly Bound[];
}

export interface Bound {
  readonly file: string;
  readonly verdict: ReturnType<typeof verdictOf>;
  readonly openRemarks: number;
  readonly toAccept: number;
  /** Signatures that are not stale; undefined: not known yet. */
  readonly signed: number | undefined;
}

type Lines = ReturnType<typeof marginOf>['lines'];

/** `whole`: with what only a signer needs, which costs more than an edit. */
export function reviewOf(
  model: LibraryModel,
  ask: { readonly file: string; readonly record: string; readonly whole: boolean },
): ReviewOf | undefined {
  const guide = model.facts.guides.find(({ file }) => file === ask.file);
  const facts = guide ? undefined : model.procedure(ask.file);
  const head = guide?.head ?? facts?.head;
  if (!head) return undefined;
  const path = recordPath(head.id);
  const read = readRecord(path, ask.record);
  const lines: Lines = facts ? marginOf(facts, model.facts, undefined, new Set(read.record.accepted.map(({ key }) => key))).lines : [];
  const pinLines = guide ? linesOfGuide(guide) : linesOfSteps(lines);
  const brief = { ...read, path, number: head.id, revision: head.revision ?? '', pins: pinsOf(read.record.remarks, pinLines) };
  if (!ask.whole) return { ...brief, hash: '', verdict: undefined, outright: [], toAccept: [], bound: [] };
  const documents = guide ? boundIn(guide, model.facts) : facts ? [facts] : [];
  const signed = documents.map((own) => signedIn(model, own));
  return {
    ...brief,
    // What a text sends its reader through counts too, and may wait to be read.
    hash: model.waiting > 0 ? '' : contentHash(guide ? { text: guide.tree.source.text, documents: signed } : signed[0]),
    verdict: verdictOf(documents),
    outright: documents.flatMap(overridesIn),
    toAccept: openIn(lines),
    bound: guide ? documents.map((own, index) => boundWith(model, own, signed[index])) : [],
  };
}

function boundWith(model: LibraryModel, facts: ProcedureFacts, signed: unknown): Bound {
  const path = recordPath(facts.head.id);
  const { remarks, accepted, signatures } = readRecord(path, model.texts.get(path) ?? '').record;
  const { lines } = marginOf(facts, model.facts, undefined, new Set(accepted.map(({ key }) => key)));
  const hash = model.waiting > 0 ? undefined : contentHash(signed);
  const verdict = verdictOf([facts]);
  return {
    file: facts.file,
    verdict,
    openRemarks: openRemarksIn(remarks),
    toAccept: openIn(lines).length,
    signed: hash === undefined ? undefined : signatures.filter((one) => signatureHolds(one, hash, verdict)).length,
  };
}

function openIn(lines: Lines): ReviewOf['toAccept'] {
  const open = new Map<string, { key: string; words: string; label: string }>();
  for (const { readings, fullLabel } of lines)
    for (const { key, earns, accepted, words, text } of readings)
      if (earns && !accepted && !open.has(key)) open.set(key, { key, words: `${text} = ${words.join('; ')}`, label: fullLabel });
  return [...open.values()];
}

/** What a remark said here would be pinned to. */
export function pinLine(model: LibraryModel, { file, offset }: { readonly file: string; readonly offset: number }): PinLine | undefined {
  const guide = model.facts.guides.find((one) => one.file === file);
  const facts = model.procedure(file);
  const lines = guide ? linesOfGuide(guide) : facts ? linesOfSteps(marginOf(facts, model.facts).lines) : [];
  return lines.findLast(({ span }) => span.start <= offset);
}
