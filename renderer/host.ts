/**
 * The page's one way to the host: asks by name, gives the answer or a refusal in words. Knows the transport (requests to the address the
 * page came from); knows nothing of what is asked.
 */

import type { DiskChange, HostEvent, Methods } from '../electron/host/contract/index.ts';

export type { DiskChange, JournalEntry } from '../electron/host/contract/index.ts';

/** The host said no, or could not be reached. The message is for people. */
export class HostRefusal extends Error {}

export async function call<M extends keyof Methods>(method: M, ask: Methods[M]['ask']): Promise<Methods[M]['answer']> {
  let response: Response;
  try {
    response = await fetch(`/call/${method}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(ask),
    });
  } catch {
    throw new HostRefusal('Handsclear’s own service does not answer. Your text is still in this window; start Handsclear again and save.');
  }
  const reply = (await response.json().catch(() => undefined)) as
    | { ok: true; value: Methods[M]['answer'] }
    | { ok: false; error: { message: string; kept?: string; todo?: string } }
    | undefined;
  if (reply === undefined) throw new HostRefusal(`The service answered ${response.status} without words.`);
  if (reply.ok) return reply.value;
  throw new HostRefusal([reply.error.message, reply.error.kept, reply.error.todo].filter(Boolean).join(' '));
}

/** Told of each change on disk until the returned function is called. */
export function watchDisk(told: (library: string, changes: readonly DiskChange[]) => void): () => void {
  const source = new EventSource('/events');
  source.onmessage = ({ data }: MessageEvent<string>) => {
    const event = JSON.parse(data) as HostEvent;
    if (event.event === 'changed') told(event.library, event.changes);
  };
  return () => source.close();
}

export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
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
