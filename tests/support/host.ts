/** The host as tests see it: folders that go away after the test, a disk that fails on purpose, a service with a library open. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll } from 'vitest';
import { type HostEvent, METHODS, type MethodName, type Methods, misfit } from '../../electron/host/contract/index.ts';
import { hashOf, nodeWriteDisk, type WriteDisk } from '../../electron/host/saving/index.ts';
import { Service, type ServiceOptions } from '../../electron/host/service/index.ts';

const folders: string[] = [];
const services: Service[] = [];
afterAll(async () => {
  for (const service of services.splice(0)) await service.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** Its real path, as the host names it. */
export function newFolder(): string {
  const folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'handsclear-host-')));
  folders.push(folder);
  return folder;
}

export type Content = string | Uint8Array | { readonly link: string };

export function put(folder: string, files: Readonly<Record<string, Content>>): void {
  for (const [name, content] of Object.entries(files)) {
    const file = path.join(folder, ...name.split('/'));
    mkdirSync(path.dirname(file), { recursive: true });
    if (typeof content === 'object' && 'link' in content) symlinkSync(content.link, file);
    else writeFileSync(file, content);
  }
}

export const SMALL: Readonly<Record<string, Content>> = {
  'library.yaml': 'publisher: Orrfen Machines\n',
  'registers/equipment.yaml': 'families: {}\n',
  'procedures/a.md': 'first\n',
};

export function newLibrary(files: Readonly<Record<string, Content>> = SMALL): string {
  const folder = newFolder();
  put(folder, files);
  return folder;
}

export const read = (folder: string, own: string): string => readFileSync(path.join(folder, ...own.split('/')), 'utf8');
export const hash = (text: string): string => hashOf(new TextEncoder().encode(text));

/** Every file below a folder, with forward slashes, sorted. */
export function filesIn(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'))
    .sort();
}

export type Step = keyof WriteDisk;

/** The real disk, but what `fails` gives a code for fails with it; `times`: how often, then it works again. */
export function failingDisk(
  fails: Partial<Readonly<Record<Step, string>>>,
  times = Number.POSITIVE_INFINITY,
): WriteDisk & { readonly steps: readonly string[] } {
  const steps: string[] = [];
  let left = times;
  const wrapped = Object.entries(nodeWriteDisk).map(([step, real]) => [
    step,
    async (...words: unknown[]) => {
      steps.push(step);
      const code = fails[step as Step];
      if (code !== undefined && left > 0) {
        left -= 1;
        // A disk that is full has taken some of the bytes.
        if (step === 'writeFlushed') writeFileSync(words[0] as string, (words[1] as Uint8Array).subarray(0, 3));
        throw Object.assign(new Error(`${code}: on purpose`), { code });
      }
      return (real as (...words: unknown[]) => Promise<unknown>)(...words);
    },
  ]);
  return { ...(Object.fromEntries(wrapped) as WriteDisk), steps };
}

export interface Host {
  readonly service: Service;
  readonly data: string;
  readonly library: string;
  readonly told: readonly HostEvent[];
  readonly call: <M extends MethodName>(method: M, ask: Methods[M]['ask'], window?: string) => Promise<Methods[M]['answer']>;
}

export function newService(options: Partial<ServiceOptions> = {}): Host {
  const data = options.data ?? newFolder();
  const told: HostEvent[] = [];
  const service = new Service({ data, sample: data, home: data, tell: (event) => told.push(event), ...options });
  services.push(service);
  return {
    service,
    data,
    told,
    library: '',
    async call(method, ask, window = 'window-1') {
      const answer = await service.call(method, ask, window);
      // Every answer in every test fits what the contract says of it.
      const wrong = misfit(answer, METHODS[method].answer, `the answer of ${method}`);
      if (wrong !== undefined) throw new Error(wrong);
      return answer as never;
    },
  };
}

/** With the library open. */
export async function hostOf(folder: string, options: Partial<ServiceOptions> = {}): Promise<Host> {
  const host = newService(options);
  host.service.arrived('window-1');
  const { library } = await host.call('library.open', { folder });
  return { ...host, library };
}
