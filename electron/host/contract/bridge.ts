/** What the shell's preload puts into the page, and the record in which every reply crosses. The page finds it under one name. */
import type { MethodName, Methods } from './methods.ts';
import type { HostEvent } from './records.ts';
import type { Said } from './refusals.ts';

export type Reply<Value = unknown> =
  | { readonly ok: true; readonly value: Value }
  /** `refused`: by rule. Else the program failed. */
  | { readonly ok: false; readonly refused: boolean; readonly error: ReplyError };

export interface ReplyError {
  /** In English. */
  readonly message: string;
  /** The same by name, for whoever says it in another language. */
  readonly said: readonly Said[];
}

export interface Bridge {
  /** One function a method, and no other way in. */
  readonly calls: { readonly [M in MethodName]: (ask: Methods[M]['ask']) => Promise<Reply<Methods[M]['answer']>> };
  /** Until the returned function is called. */
  readonly hear: (told: (event: HostEvent) => void) => () => void;
}

/** The bridge's name in the page's `window`. */
export const BRIDGE = 'handsclear';

/** The page's title begins with this while text in it is not saved; the shell reads it before it closes a window. */
export const UNSAVED_MARK = '•';
