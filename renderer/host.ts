/**
 * The page's one way to the host: asks by name, gives the answer or a refusal in words. Knows the two transports (the bridge that the
 * desktop shell puts into the page, else requests to the address the page came from); knows nothing of what is asked.
 */

import {
  BRIDGE,
  type Bridge,
  type DiskChange,
  type HostEvent,
  METHODS,
  type Methods,
  misfit,
  type Reply,
  type Said,
} from '../electron/host/contract/index.ts';

import { HostRefusal } from './refused.ts';

export type { DiskChange, JournalEntry } from '../electron/host/contract/index.ts';
export { UNSAVED_MARK } from '../electron/host/contract/index.ts';

interface Transport {
  readonly call: (method: keyof Methods, ask: unknown) => Promise<Reply>;
  readonly hear: (told: (event: HostEvent) => void) => () => void;
}

const SILENT: readonly Said[] = [['silent']];
const SHUT_OUT: readonly Said[] = [['shutOut']];

/** Whether a desktop shell is around the page: only that can show a folder. */
export const inShell = BRIDGE in globalThis;

const transport: Transport = overBridge((globalThis as { readonly [BRIDGE]?: Bridge })[BRIDGE]) ?? overRequests();

export async function call<M extends keyof Methods>(method: M, ask: Methods[M]['ask']): Promise<Methods[M]['answer']> {
  const reply = (await transport.call(method, ask)) as Reply<Methods[M]['answer']>;
  if (reply.ok) {
    const wrong = misfit(reply.value, METHODS[method].answer, 'the answer');
    if (wrong !== undefined) throw new HostRefusal([['odd', `The service answered ${method} otherwise than agreed: ${wrong}.`]]);
    return reply.value;
  }
  throw new HostRefusal(reply.error.said ?? [], reply.error.message);
}

/** Told of each change on disk until the returned function is called. */
export function watchDisk(told: (library: string, changes: readonly DiskChange[]) => void): () => void {
  return transport.hear((event) => {
    if (event.event === 'changed') told(event.library, event.changes);
  });
}

/** Told of each file of the library that the user opened from outside, until the returned function is called. */
export function onShow(told: (path: string) => void): () => void {
  return transport.hear((event) => {
    if (event.event === 'show') told(event.path);
  });
}

/** Told of each item chosen in the shell's own menu, by the name of its action, until the returned function is called. */
export function onMenuAction(told: (name: string) => void): () => void {
  return transport.hear((event) => {
    if (event.event === 'action') told(event.name);
  });
}

function overBridge(bridge: Bridge | undefined): Transport | undefined {
  if (bridge === undefined) return undefined;
  const calls = bridge.calls as Readonly<Record<string, (ask: unknown) => Promise<Reply>>>;
  return {
    call: (method, ask) =>
      calls[method]?.(ask).catch(() => {
        throw new HostRefusal(SILENT);
      }) ?? Promise.reject(new HostRefusal(SILENT)),
    hear: bridge.hear,
  };
}

/** Milliseconds until a window that is not heard tries again. */
const AGAIN = 1000;

function overRequests(): Transport {
  // Tells this window from others of the same browser, so that its unsaved text is offered to none of them while it is there.
  const own = crypto.randomUUID();
  const hearing = new Set<(event: HostEvent) => void>();
  let socket: WebSocket | undefined;
  const listen = (): void => {
    const one = new WebSocket(`ws://${location.host}/events?window=${own}`);
    socket = one;
    one.onmessage = ({ data }: MessageEvent<string>) => {
      for (const told of hearing) told(JSON.parse(data) as HostEvent);
    };
    // A machine that slept may have lost it.
    one.onclose = () => {
      if (socket === one) setTimeout(() => socket === one && listen(), AGAIN);
    };
  };
  return {
    async call(method, ask) {
      const headers = { 'content-type': 'application/json', 'x-handsclear-window': own };
      const response = await fetch(`/call/${method}`, { method: 'POST', headers, body: JSON.stringify(ask) }).catch(() => {
        throw new HostRefusal(SILENT);
      });
      // Only the door answers so, before anything was asked.
      if (response.status === 403) throw new HostRefusal(SHUT_OUT);
      const reply = (await response.json().catch(() => undefined)) as Reply | undefined;
      if (reply === undefined) throw new HostRefusal([['odd', `The service answered ${response.status} without words.`]]);
      return reply;
    },
    hear(told) {
      hearing.add(told);
      if (socket === undefined) listen();
      return () => {
        hearing.delete(told);
        if (hearing.size > 0) return;
        const last = socket;
        socket = undefined;
        last?.close();
      };
    },
  };
}

/** Newer browsers have it themselves, twenty times as fast: the fonts are four million letters. */
const native = (Uint8Array as { readonly fromBase64?: (base64: string) => Uint8Array<ArrayBuffer> }).fromBase64;

export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  if (native !== undefined) return native.call(Uint8Array, base64);
  const binary = atob(base64);
  const out = new Uint8Array(binary.length);
  for (let index = 0; index < binary.length; index += 1) out[index] = binary.charCodeAt(index);
  return out;
}

export function base64Of(bytes: Uint8Array): string {
  let binary = '';
  for (let index = 0; index < bytes.length; index += 0x8000) binary += String.fromCharCode(...bytes.subarray(index, index + 0x8000));
  return btoa(binary);
}
