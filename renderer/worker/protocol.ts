/** What page and worker say to each other: plain data, each request answered once by its number. */
import type { Change, Finding } from '../../procedures-schema/index.ts';
import type { Answer, Ask, QueryName } from './queries/queries.ts';

export type ToWorker =
  /** Applies edits; `rev` is the page's count of edits, given back with what changed. */
  | { readonly kind: 'edit'; readonly rev: number; readonly changes: readonly Change[] }
  | { readonly kind: 'fonts'; readonly faces: Readonly<Record<string, Uint8Array>> }
  | { readonly kind: 'figure'; readonly path: string; readonly bytes: Uint8Array }
  | { readonly kind: 'ask'; readonly id: number; readonly query: QueryName; readonly ask: Ask<QueryName> };

export type FromWorker =
  | {
      readonly kind: 'checked';
      readonly rev: number;
      /** By file, for the files whose findings may have changed. */
      readonly findings: readonly (readonly [string, readonly Finding[]])[];
      /** Between files; undefined: told by itself a little later. */
      readonly between: readonly Finding[] | undefined;
      /** Procedures that wait to be read. */
      readonly waiting: number;
      readonly milliseconds: number;
      /** Name of the built worker, which holds a hash of all that it is made of. */
      readonly engine: string;
    }
  /** More of a long library was read, nobody asked. */
  | {
      readonly kind: 'background';
      readonly findings: readonly (readonly [string, readonly Finding[]])[];
      readonly between: readonly Finding[];
      readonly waiting: number;
    }
  /** What was owed since the last edit; what was said of the procedures stands. */
  | { readonly kind: 'between'; readonly between: readonly Finding[] }
  /** More is known for the list of documents, though nothing was edited. */
  | { readonly kind: 'listed' }
  /** Pages written of the document that is asked for. */
  | { readonly kind: 'written'; readonly page: number; readonly of: number }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: Answer<QueryName> }
  | { readonly kind: 'failed'; readonly id: number | undefined; readonly message: string };
