/**
 * Whether the signatures of each document still name the text as it is: for the list of the library, looked up bit by bit when nobody waits for
 * anything, because a name is made of all that a proof reads. What a name is made of is for `review/signed.ts`.
 */
import type { LibraryFacts, ProcedureFacts } from '../../procedures-schema/index.ts';
import {
  boundIn,
  type GuideFacts,
  type Remark,
  readRecord,
  recordPath,
  type Signature,
  signatureHolds,
  signedOf,
  verdictOf,
  walkedFrom,
} from '../../procedures-schema/review/index.ts';
import { checklistOf, contentHash, writeChecklist } from '../../publishing/index.ts';
import type { LibraryModel } from './library-model.ts';

export type SignatureState = 'none' | 'fresh' | 'stale';

interface Known {
  readonly record: string;
  readonly registers: unknown;
  /** The document, and all that its name was made of. */
  readonly of: readonly Facts[];
  readonly state: SignatureState;
}
type Facts = ProcedureFacts | GuideFacts;
type Files = ReadonlyMap<string, Facts>;

interface Record {
  readonly text: string;
  readonly openRemarks: number;
  readonly signatures: readonly Signature[];
}
const AT_ONCE = 4;
const NO_RECORD: Record = { text: '', openRemarks: 0, signatures: [] };

export class SignatureStates {
  private readonly known = new Map<string, Known>();
  private readonly records = new Map<string, Record>();
  private readonly paths = new Map<string, string>();

  /** How many records may be read until `lookUp` reads the rest: thousands read at once would keep a key waiting. */
  private mayRead = 0;

  /** Before the states of all documents are asked for. */
  beginList(): void {
    this.mayRead = AT_ONCE;
  }

  /** How many remarks on a document are open. Undefined: not looked up yet, as in `stateOf`. */
  openRemarks(model: LibraryModel, number: string): number | undefined {
    return this.recordOf(model, number)?.openRemarks;
  }

  /** Undefined: not known as everything stands now. What was stale is called so until it is known to be otherwise, never the other way about. */
  stateOf(model: LibraryModel, file: string, number: string, now: () => Files): SignatureState | undefined {
    const record = this.recordOf(model, number);
    if (record === undefined) return undefined;
    if (record.signatures.length === 0) return 'none';
    const known = this.known.get(file);
    if (known === undefined || known.record !== record.text) return undefined;
    return known.state === 'stale' || holds(known, model, now()) ? known.state : undefined;
  }

  /** Looks up signatures that are not known as everything stands, until `enough`. Says whether that was all. */
  lookUp(model: LibraryModel, enough: () => boolean): { readonly done: boolean; readonly news: boolean } {
    let news = false;
    if (model.waiting > 0) return { done: true, news };
    const { facts } = model;
    const now = factsByFile(facts);
    for (const [file, own] of now) {
      this.mayRead = 1;
      const record = this.recordOf(model, own.head.id) ?? NO_RECORD;
      if (this.mayRead === 0) {
        news = true;
        if (enough()) return { done: false, news };
      }
      if (record.signatures.length === 0) {
        this.known.delete(file);
        continue;
      }
      const known = this.known.get(file);
      if (known?.record === record.text && holds(known, model, now)) continue;
      if (enough()) return { done: false, news };
      const { hash, of, verdict } = model.inPassing(() => ({
        hash: signedName(model, own),
        of: madeOf(own, facts),
        verdict: verdictOf(isGuide(own) ? boundIn(own, facts) : [own]),
      }));
      const state = record.signatures.some((one) => signatureHolds(one, hash, verdict)) ? 'fresh' : 'stale';
      this.known.set(file, { record: record.text, registers: facts.registers, of, state });
      news = true;
    }
    return { done: true, news };
  }

  private recordOf({ texts }: LibraryModel, number: string): Record | undefined {
    let path = this.paths.get(number);
    if (path === undefined) {
      path = recordPath(number);
      this.paths.set(number, path);
    }
    const text = texts.get(path);
    if (text === undefined) return NO_RECORD;
    const known = this.records.get(path);
    if (known?.text === text) return known;
    if (this.mayRead === 0) return undefined;
    this.mayRead -= 1;
    const { remarks, signatures } = readRecord(path, text).record;
    const record = { text, openRemarks: openIn(remarks), signatures };
    this.records.set(path, record);
    return record;
  }
}

export const openIn = (remarks: readonly Remark[]): number => remarks.filter(({ settled }) => !settled).length;

export const factsByFile = ({ procedures, guides }: LibraryFacts): Files =>
  new Map([...procedures, ...guides].map((one) => [one.file, one]));

const holds = ({ registers, of }: Known, model: LibraryModel, now: Files): boolean =>
  registers === model.facts.registers && of.every((one) => now.get(one.file) === one);

/** Asked without a look at the tree, which might have to be read anew for it. */
const isGuide = (one: Facts): one is GuideFacts => !('flow' in one);

function madeOf(own: Facts, facts: LibraryFacts): readonly Facts[] {
  const walked = (isGuide(own) ? boundIn(own, facts) : [own]).flatMap((one) => walkedFrom(one, facts));
  return [...new Set([own, ...walked])];
}

/** The name of what would be signed now: of a guide, its words and all that it binds in. */
export function signedName(model: LibraryModel, own: Facts): string {
  if (!isGuide(own)) return contentHash(signedIn(model, own));
  return contentHash({ text: own.tree.source.text, documents: boundIn(own, model.facts).map((one) => signedIn(model, one)) });
}

export const signedIn = (model: LibraryModel, facts: ProcedureFacts): unknown => ({
  proof: signedOf(facts, model.facts),
  checklist: writeChecklist(checklistOf(facts, { library: model.facts, figures: model.figures, draft: false })),
});
