/** The one gate between pages and host in the shell: who asks is looked at first, then what is asked. Strangers get no answer but no. */
import { type IpcMainInvokeEvent, ipcMain } from 'electron';
import { CHANNELS } from './channels.ts';
import type { Reply } from './host/contract/index.ts';
import { type Caller, replyTo, type Service } from './host/service/index.ts';
import { isOwnPage } from './scheme.ts';

/** Who a page is to the host; undefined: none of our windows. */
export type CallerOf = (contents: number) => Caller | undefined;

const NO = 'Only the page of this program may ask.';
const NOBODY: Reply = { ok: false, refused: true, error: { message: NO, said: [['odd', NO]] } };

/** `done`: told of each call that was answered. */
export function openGate(
  service: Pick<Service, 'call'>,
  callerOf: CallerOf,
  done: (contents: number, method: string, value: unknown) => void,
): void {
  ipcMain.handle(CHANNELS.call, async (event, method: unknown, ask: unknown): Promise<Reply> => {
    const caller = isOwnSender(event) ? callerOf(event.sender.id) : undefined;
    if (caller === undefined || typeof method !== 'string') return NOBODY;
    const reply = await replyTo(service, method, ask, caller);
    if (reply.ok) done(event.sender.id, method, reply.value);
    return reply;
  });
}

/** The page itself in a window's own frame: no frame inside it, no page that took its place. */
function isOwnSender({ senderFrame }: Pick<IpcMainInvokeEvent, 'senderFrame'>): boolean {
  return senderFrame !== null && senderFrame.parent === null && isOwnPage(senderFrame.url);
}
