import { spawn } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Alive, Journal } from '../../../electron/host/journal/index.ts';
import { nodeWriteDisk, type WriteDisk } from '../../../electron/host/saving/index.ts';
import { failingDisk, filesIn, hash, hostOf, newFolder, newLibrary, put, read } from '../../support/host.ts';

const ROOT = path.resolve('library');
const entry = (text: string, own = 'procedures/a.md') => ({ path: own, base: null, text });

function newJournal(disk: WriteDisk = nodeWriteDisk) {
  const folder = newFolder();
  const journal = new Journal(folder, disk);
  const texts = async (): Promise<readonly string[]> => (await new Journal(folder, nodeWriteDisk).list(ROOT)).map(({ text }) => text);
  /** The one file of the one window. */
  const file = (): string => {
    const [own = ''] = readdirSync(folder);
    const [name = ''] = readdirSync(path.join(folder, own));
    return path.join(folder, own, name);
  };
  return { journal, folder, texts, file };
}

describe('unsaved text', () => {
  test('comes back in the next run, with the base it was written over', async () => {
    const { journal, folder } = newJournal();
    const entries = [{ path: 'procedures/a.md', base: 'ab'.repeat(32), text: '\uFEFFa\r\n' }, entry('b', 'procedures/b.md')];
    await journal.put(ROOT, 'window-1', entries);
    expect(await new Journal(folder, nodeWriteDisk).list(ROOT)).toEqual(entries.map((one) => ({ ...one, window: 'window-1' })));
  });

  test('is replaced whole', async () => {
    const { journal, texts } = newJournal();
    await journal.put(ROOT, 'w', [entry('old'), entry('gone', 'procedures/b.md')]);
    await journal.put(ROOT, 'w', [entry('new')]);
    expect(await texts()).toEqual(['new']);
  });

  test('is forgotten when there is none left', async () => {
    const { journal, texts } = newJournal();
    await journal.put(ROOT, 'w', [entry('old')]);
    await journal.put(ROOT, 'w', []);
    expect(await texts()).toEqual([]);
  });

  test('of each window is kept apart, and what was written last is listed last', async () => {
    const { journal, texts } = newJournal();
    const later = () => new Promise((resolve) => setTimeout(resolve, 5));
    await journal.put(ROOT, 'w2', [entry('two')]);
    await later();
    await journal.put(ROOT, 'w1', [entry('one')]);
    expect(await texts()).toEqual(['two', 'one']);
    await later();
    await journal.put(ROOT, 'w2', [entry('two again')]);
    expect(await texts()).toEqual(['one', 'two again']);
    await journal.drop(ROOT, 'w1');
    expect(await texts()).toEqual(['two again']);
  });

  test('of another library is not offered', async () => {
    const { journal, texts } = newJournal();
    await journal.put(`${ROOT}-other`, 'w', [entry('other')]);
    expect(await texts()).toEqual([]);
  });

  test('that was typed last is what is kept, also when its write overtakes the one before', async () => {
    let slow = true;
    const disk: WriteDisk = {
      ...nodeWriteDisk,
      async writeFlushed(...words) {
        if (slow) {
          slow = false;
          await new Promise((resolve) => setTimeout(resolve, 60));
        }
        return nodeWriteDisk.writeFlushed(...words);
      },
    };
    const { journal, texts } = newJournal(disk);
    await Promise.all([journal.put(ROOT, 'w', [entry('first')]), journal.put(ROOT, 'w', [entry('second')])]);
    expect(await texts()).toEqual(['second']);
  });

  test('does not come back when it was dropped right after', async () => {
    const { journal, texts } = newJournal();
    await Promise.all([journal.put(ROOT, 'w', [entry('first')]), journal.drop(ROOT, 'w')]);
    expect(await texts()).toEqual([]);
  });

  test('of any kind comes back letter for letter', async () => {
    const { journal, texts } = newJournal();
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 200 }), async (text) => {
        await journal.put(ROOT, 'w', [entry(text)]);
        expect(await texts()).toEqual([text]);
      }),
      { numRuns: 30 },
    );
  });
});

describe('a journal file that is torn', () => {
  test('at any byte is not offered, and the others still are', async () => {
    const { journal, texts, file } = newJournal();
    await journal.put(ROOT, 'w', [entry('a text of some length')]);
    const whole = readFileSync(file());
    for (let length = 0; length < whole.length; length += 7) {
      writeFileSync(file(), whole.subarray(0, length));
      expect(await texts(), `${length} bytes`).toEqual([]);
    }
    writeFileSync(file(), whole);
    expect(await texts()).toEqual(['a text of some length']);
  });

  test('by one flipped bit is not offered', async () => {
    const { journal, texts, file } = newJournal();
    await journal.put(ROOT, 'w', [entry('a text')]);
    const whole = readFileSync(file());
    for (let at = 0; at < whole.length; at += 11) {
      const flipped = Buffer.from(whole);
      flipped[at] = (flipped[at] ?? 0) ^ 1;
      writeFileSync(file(), flipped);
      expect(await texts(), `byte ${at}`).toEqual([]);
    }
  });

  test('stays where it is, for whoever can read it', async () => {
    const { journal, texts, file } = newJournal();
    await journal.put(ROOT, 'w', [entry('a text')]);
    writeFileSync(file(), 'torn');
    await texts();
    expect(readFileSync(file(), 'utf8')).toBe('torn');
  });
});

test('a disk that fails keeps the journal that was there', async () => {
  const { journal, folder, texts } = newJournal();
  await journal.put(ROOT, 'w', [entry('kept')]);
  await expect(new Journal(folder, failingDisk({ writeFlushed: 'ENOSPC' })).put(ROOT, 'w', [entry('lost')])).rejects.toThrow('ENOSPC');
  expect(await texts()).toEqual(['kept']);
});

test.each(['', '../w', 'a/b', 'x'.repeat(65), 'w\0'])('"%s" is no name of a window', async (window) => {
  await expect(newJournal().journal.put(ROOT, window, [entry('x')])).rejects.toThrow('This is no name of a window.');
});

describe('killed around a save', () => {
  const [first, second, third] = ['first\n', 'second\n', 'third\n'] as const;
  const typed = (text: string, base = hash(first)) => ({ path: 'procedures/a.md', base, text });
  /** What the next window is offered when this one is gone. */
  async function offered({ library, call, service }: Awaited<ReturnType<typeof hostOf>>) {
    service.left('window-1');
    return (await call('journal.list', { library }, 'window-2')).entries.map(({ base, text }) => ({ base, text }));
  }
  const saving = ({ library, call }: Awaited<ReturnType<typeof hostOf>>, text: string, base = hash(first)) =>
    call('file.save', { library, window: 'own', files: [typed(text, base)] }, 'window-1');
  const putting = ({ library, call }: Awaited<ReturnType<typeof hostOf>>, text: string, base = hash(first)) =>
    call('journal.put', { library, window: 'own', entries: [typed(text, base)] }, 'window-1');

  test('what the disk holds is not offered, nor does it come back when the disk has moved on', async () => {
    const root = newLibrary();
    const host = await hostOf(root);
    await putting(host, second);
    await saving(host, second);
    expect(await offered(host)).toEqual([]);
    put(root, { 'procedures/a.md': third });
    expect(await offered(host)).toEqual([]);
    expect(filesIn(host.data).filter((own) => own.endsWith('.journal'))).toEqual([]);
  });

  test('a text that the save overtook is not offered over it', async () => {
    const host = await hostOf(newLibrary());
    await putting(host, second);
    await saving(host, third);
    expect(await offered(host)).toEqual([]);
  });

  test('what was typed after the save is offered as written over it, before and after the word of the save', async () => {
    const host = await hostOf(newLibrary());
    await putting(host, second);
    await saving(host, second);
    await putting(host, third);
    expect(await offered(host)).toEqual([{ base: hash(second), text: third }]);
    await putting(host, third, hash(second));
    expect(await offered(host)).toEqual([{ base: hash(second), text: third }]);
  });

  test('also when nothing had been put by before the save', async () => {
    const host = await hostOf(newLibrary());
    await saving(host, second);
    await putting(host, third);
    expect(await offered(host)).toEqual([{ base: hash(second), text: third }]);
  });

  test('what somebody else wrote meanwhile is not taken for the base', async () => {
    const root = newLibrary();
    const host = await hostOf(root);
    await putting(host, second);
    await saving(host, second);
    await putting(host, third, hash(second));
    put(root, { 'procedures/a.md': 'of another program\n' });
    expect(await offered(host)).toEqual([{ base: hash(second), text: third }]);
  });

  test('a file that is gone from the disk is offered with the base that it had', async () => {
    const root = newLibrary();
    const host = await hostOf(root);
    await putting(host, second);
    rmSync(path.join(root, 'procedures', 'a.md'));
    expect(await offered(host)).toEqual([{ base: hash(first), text: second }]);
  });

  test('a journal that cannot be written does not keep a text from being saved', async () => {
    let full = false;
    const root = newLibrary();
    const disk: WriteDisk = {
      ...nodeWriteDisk,
      async writeFlushed(file, ...rest) {
        if (full && file.includes('unsaved')) throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
        return nodeWriteDisk.writeFlushed(file, ...rest);
      },
    };
    const host = await hostOf(root, { disk });
    await putting(host, second);
    full = true;
    expect((await saving(host, third)).saved).toHaveLength(1);
    expect(read(root, 'procedures/a.md')).toBe(third);
  });
});

describe('with several windows on one library', () => {
  test('text of a window that is open is neither offered to another nor dropped by it', async () => {
    const host = await hostOf(newLibrary());
    const { library, call, service } = host;
    service.arrived('window-2');
    await call('journal.put', { library, window: 'first', entries: [entry('mine')] }, 'window-1');
    expect((await call('journal.list', { library }, 'window-2')).entries).toEqual([]);
    await call('journal.drop', { library }, 'window-2');
    await call('journal.drop', { library, window: 'first' }, 'window-2');
    expect((await call('journal.list', { library }, 'window-1')).entries.map(({ text }) => text)).toEqual(['mine']);
  });

  test('text of a window that is gone is offered to the next', async () => {
    const { library, call, service } = await hostOf(newLibrary());
    await call('journal.put', { library, window: 'first', entries: [entry('mine')] }, 'window-1');
    service.left('window-1');
    service.arrived('window-2');
    expect((await call('journal.list', { library }, 'window-2')).entries.map(({ text }) => text)).toEqual(['mine']);
    await call('journal.drop', { library }, 'window-2');
    expect((await call('journal.list', { library }, 'window-2')).entries).toEqual([]);
  });

  test('text of another run of the program is offered when that run has ended, not while it is there', async () => {
    const folder = newLibrary();
    const first = await hostOf(folder);
    await first.call('journal.put', { library: first.library, window: 'first', entries: [entry('mine')] });
    const second = await hostOf(folder, { data: first.data });
    expect((await second.call('journal.list', { library: second.library })).entries).toEqual([]);
    await second.call('journal.drop', { library: second.library });
    await first.service.close();
    expect((await second.call('journal.list', { library: second.library })).entries.map(({ text }) => text)).toEqual(['mine']);
  });
});

describe('another run of the program', () => {
  test('is there until it is killed; what it leaves behind is swept up', async () => {
    const folder = newFolder();
    const program = path.join(newFolder(), 'alive.mjs');
    const source = path.join(import.meta.dirname, '../../../electron/host/journal/alive.ts');
    await build({ entryPoints: [source], outfile: program, bundle: true, platform: 'node', format: 'esm', logLevel: 'error' });
    const words = `const { Alive } = await import(${JSON.stringify(pathToFileURL(program).href)}); const one = new Alive(${JSON.stringify(folder)});
      await one.begin(); console.log(one.name); setInterval(() => {}, 1000);`;
    const child = spawn(process.execPath, ['--input-type=module', '--eval', words], { stdio: ['ignore', 'pipe', 'inherit'] });
    const name = await new Promise<string>((resolve) => child.stdout.once('data', (part) => resolve(String(part).trim())));
    const own = new Alive(folder);
    expect(await own.isThere(name)).toBe(true);
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await ended;
    expect(await own.isThere(name)).toBe(false);
    await own.begin();
    expect(await own.isThere(own.name ?? '')).toBe(true);
    if (process.platform !== 'win32') expect(readdirSync(folder)).toEqual([`${own.name}.here`]);
    await own.end();
    expect(readdirSync(folder)).toEqual([]);
  });

  test.each(['', '../x', 'h', 'habcdef12345', 'habcdef123456/../x'])('that is named "%s" is none', async (name) => {
    expect(await new Alive(newFolder()).isThere(name)).toBe(false);
  });

  test('in a place where no door can be made, all text is offered', async () => {
    const folder = path.join(newFolder(), 'x'.repeat(120));
    mkdirSync(folder);
    const alive = new Alive(folder);
    await alive.begin();
    expect(alive.name).toBeUndefined();
    // Nor is one made where a path that was cut off would lead.
    expect(readdirSync(path.dirname(folder))).toEqual([path.basename(folder)]);
    await alive.end();
  });
});
