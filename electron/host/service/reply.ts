/** Calls a method and puts what comes of it into a record that crosses any transport: an answer, or words. Never throws. */
import { inWords, METHODS, type MethodName, Refused, type Reply } from '../contract/index.ts';
import type { Caller } from './inner.ts';
import type { Service } from './service.ts';

export async function replyTo(service: Pick<Service, 'call'>, method: string, ask: unknown, caller: Caller): Promise<Reply> {
  try {
    return { ok: true, value: await service.call(method, ask, caller) };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, refused: true, error: { message: error.message, said: error.said } };
    const what = Object.hasOwn(METHODS, method) ? (method as MethodName) : 'a call';
    const said = [['failed', what, String((error as Error)?.message ?? error)]] as const;
    return { ok: false, refused: false, error: { message: inWords(said), said } };
  }
}
