/** Which text was open and where the caret stood in it when the library was closed, kept by the host, so that the next morning begins there. */
import { call } from '../host.ts';
import { LEFT_OFF } from './ahead.ts';
import { shown } from './shown.ts';
import { here } from './workspace.ts';

/** Milliseconds of quiet before it is kept: nobody loses more than that, and the disk has its rest. */
const QUIET = 2000;

export interface LeftOff {
  readonly file: string;
  readonly caret: number;
}

/** What was kept; undefined: nothing, or nothing that can be read. */
export function leftOff(text: string | null): LeftOff | undefined {
  try {
    const { file, caret } = JSON.parse(text ?? '') as Partial<LeftOff>;
    return typeof file === 'string' && typeof caret === 'number' && Number.isInteger(caret) && caret >= 0 ? { file, caret } : undefined;
  } catch {
    return undefined;
  }
}

/** From now on. */
export function keepLeftOff(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  shown.listen(
    () => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        const { file, caret } = shown.get();
        if (file === undefined) return;
        const text = JSON.stringify({ file, caret } satisfies LeftOff);
        void call('cache.write', { library: here.library, name: LEFT_OFF, text }).catch(() => undefined);
      }, QUIET);
    },
    'file',
    'caret',
  );
}
