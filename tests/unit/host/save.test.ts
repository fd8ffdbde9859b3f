import { chmodSync, statSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nodeWriteDisk, saveFiles, type WriteDisk, writeWhole } from '../../../electron/host/saving/index.ts';
import { failingDisk, filesIn, hash, hostOf, newLibrary, put, read, SMALL, type Step } from '../../support/host.ts';

const one = (base: string | null, text: string, own = 'procedures/a.md') => [{ path: own, base, text }];

describe('a save', () => {
  test('writes the text and names its bytes', async () => {
    const root = newLibrary();
    const answer = await saveFiles(root, one(hash('first\n'), 'second\n'), nodeWriteDisk);
    expect(answer).toEqual({ saved: [{ path: 'procedures/a.md', hash: hash('second\n') }], conflicts: [] });
    expect(read(root, 'procedures/a.md')).toBe('second\n');
  });

  test('makes a new file in a new folder', async () => {
    const root = newLibrary();
    await saveFiles(root, one(null, 'new\n', 'procedures/balers/b.md'), nodeWriteDisk);
    expect(read(root, 'procedures/balers/b.md')).toBe('new\n');
  });

  test('leaves nothing beside the file', async () => {
    const root = newLibrary();
    await saveFiles(root, one(hash('first\n'), 'second\n'), nodeWriteDisk);
    expect(filesIn(root)).toEqual(Object.keys(SMALL).sort());
  });

  test('keeps byte-order mark, line ends and letters as they are', async () => {
    const root = newLibrary();
    const text = '\uFEFFa\r\nb\n\u2028ü 𝄞\r';
    await saveFiles(root, one(hash('first\n'), text), nodeWriteDisk);
    expect(read(root, 'procedures/a.md')).toBe(text);
  });

  test.skipIf(process.platform === 'win32')('keeps who may read the file', async () => {
    const root = newLibrary();
    const file = path.join(root, 'procedures', 'a.md');
    chmodSync(file, 0o640);
    await saveFiles(root, one(hash('first\n'), 'second\n'), nodeWriteDisk);
    expect((statSync(file).mode & 0o777).toString(8)).toBe('640');
  });

  test('of a name as long as the system allows', async () => {
    const root = newLibrary();
    const own = `procedures/${'n'.repeat(252)}.md`;
    await saveFiles(root, one(null, 'x', own), nodeWriteDisk);
    expect(read(root, own)).toBe('x');
  });

  test('any text comes back byte for byte', async () => {
    const root = newLibrary();
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary' }), async (text) => {
        await saveFiles(root, one(hash(read(root, 'procedures/a.md')), text), nodeWriteDisk);
        expect(read(root, 'procedures/a.md')).toBe(text);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a file that changed on disk', () => {
  test('is left alone and given back', async () => {
    const root = newLibrary();
    put(root, { 'procedures/a.md': 'theirs\n' });
    const answer = await saveFiles(root, one(hash('first\n'), 'mine\n'), nodeWriteDisk);
    expect(answer).toEqual({ saved: [], conflicts: [{ path: 'procedures/a.md', text: 'theirs\n', hash: hash('theirs\n') }] });
    expect(read(root, 'procedures/a.md')).toBe('theirs\n');
  });

  test('was deleted', async () => {
    const root = newLibrary();
    const answer = await saveFiles(root, one(hash('old\n'), 'mine\n', 'procedures/gone.md'), nodeWriteDisk);
    expect(answer.conflicts).toEqual([{ path: 'procedures/gone.md', text: null, hash: null }]);
  });

  test('was made by somebody else under the same name', async () => {
    const root = newLibrary();
    const answer = await saveFiles(root, one(null, 'mine\n'), nodeWriteDisk);
    expect(answer.conflicts).toEqual([{ path: 'procedures/a.md', text: 'first\n', hash: hash('first\n') }]);
  });

  test('but holds just what is to be saved: nothing is written and all is well', async () => {
    const root = newLibrary();
    const disk = failingDisk({ rename: 'EIO' });
    const answer = await saveFiles(root, one('0'.repeat(64), 'first\n'), disk);
    expect(answer.saved).toEqual([{ path: 'procedures/a.md', hash: hash('first\n') }]);
  });

  test('in the moment between looking and putting the new text in place', async () => {
    const root = newLibrary();
    const disk: WriteDisk = {
      ...nodeWriteDisk,
      async writeFlushed(...words) {
        await nodeWriteDisk.writeFlushed(...words);
        put(root, { 'procedures/a.md': 'theirs\n' });
      },
    };
    const answer = await saveFiles(root, one(hash('first\n'), 'mine\n'), disk);
    expect(answer.conflicts).toEqual([{ path: 'procedures/a.md', text: 'theirs\n', hash: hash('theirs\n') }]);
    expect(filesIn(root)).toEqual(Object.keys(SMALL).sort());
  });

  test('does not keep the other files from being saved', async () => {
    const root = newLibrary({ ...SMALL, 'procedures/b.md': 'b\n' });
    put(root, { 'procedures/a.md': 'theirs\n' });
    const files = [...one(hash('first\n'), 'mine\n'), ...one(hash('b\n'), 'b2\n', 'procedures/b.md')];
    const answer = await saveFiles(root, files, nodeWriteDisk);
    expect(answer.saved.map(({ path: own }) => own)).toEqual(['procedures/b.md']);
    expect(read(root, 'procedures/b.md')).toBe('b2\n');
  });
});

describe('two windows that save over the same base', () => {
  test('one is saved, the other is given the choice', async () => {
    const root = newLibrary();
    const host = await hostOf(root);
    const save = (text: string, window: string) =>
      host.call('file.save', { library: host.library, files: one(hash('first\n'), text) }, window);
    const answers = await Promise.all([save('mine\n', 'window-1'), save('yours\n', 'window-2')]);
    expect(answers.map(({ saved }) => saved.length)).toEqual([1, 0]);
    expect(answers[1]?.conflicts).toEqual([{ path: 'procedures/a.md', text: 'mine\n', hash: hash('mine\n') }]);
    expect(read(root, 'procedures/a.md')).toBe('mine\n');
  });
});

describe('a disk that fails', () => {
  const STEPS: readonly (readonly [Step, string])[] = [
    ['makeFolder', 'EACCES'],
    ['read', 'EIO'],
    ['modeOf', 'EIO'],
    ['writeFlushed', 'ENOSPC'],
    ['writeFlushed', 'EDQUOT'],
    ['writeFlushed', 'EROFS'],
    ['rename', 'EIO'],
  ];
  test.each(STEPS)('at %s with %s: the old file stands whole, nothing lies beside it, and the words say so', async (step, code) => {
    const root = newLibrary();
    const host = await hostOf(root, { disk: failingDisk({ [step]: code }) });
    const saving = host.call('file.save', { library: host.library, files: one(hash('first\n'), 'second\n') });
    await expect(saving).rejects.toThrow(/Nothing else was written\. Your text is kept in this window\. Mend what is in the way/);
    expect(read(root, 'procedures/a.md')).toBe('first\n');
    expect(filesIn(root)).toEqual(Object.keys(SMALL).sort());
  });

  test('that is full says that it is full', async () => {
    const host = await hostOf(newLibrary(), { disk: failingDisk({ writeFlushed: 'ENOSPC' }) });
    const saving = host.call('file.save', { library: host.library, files: one(hash('first\n'), 'second\n') });
    await expect(saving).rejects.toThrow('the disk is full');
  });

  test('and fails in taking the rest away too: the old file still stands', async () => {
    const root = newLibrary();
    await expect(
      writeWhole(path.join(root, 'procedures', 'a.md'), new Uint8Array([1]), failingDisk({ rename: 'EIO', remove: 'EIO' })),
    ).rejects.toThrow('EIO');
    expect(read(root, 'procedures/a.md')).toBe('first\n');
  });

  test('once: the next save goes through', async () => {
    const root = newLibrary();
    const host = await hostOf(root, { disk: failingDisk({ writeFlushed: 'ENOSPC' }, 2) });
    const save = () => host.call('file.save', { library: host.library, files: one(hash('first\n'), 'second\n') });
    // The list of recent libraries took the first failure.
    await expect(save()).rejects.toThrow('full');
    expect((await save()).saved).toHaveLength(1);
    expect(read(root, 'procedures/a.md')).toBe('second\n');
  });
});

describe('a file that another program holds for a moment', () => {
  test.each(['EPERM', 'EBUSY', 'EACCES'])('with %s is tried again', async (code) => {
    const root = newLibrary();
    const disk = failingDisk({ rename: code }, 2);
    await saveFiles(root, one(hash('first\n'), 'second\n'), disk);
    expect(read(root, 'procedures/a.md')).toBe('second\n');
    expect(disk.steps.filter((step) => step === 'rename')).toHaveLength(3);
  });

  test('and does not let go: the old file stands', async () => {
    const root = newLibrary();
    await expect(saveFiles(root, one(hash('first\n'), 'second\n'), failingDisk({ rename: 'EBUSY' }))).rejects.toThrow('EBUSY');
    expect(read(root, 'procedures/a.md')).toBe('first\n');
  });
});

test('the new text is flushed before it takes its place, and the folder after', async () => {
  const disk = failingDisk({});
  await saveFiles(newLibrary(), one(hash('first\n'), 'second\n'), disk);
  const order = disk.steps.filter((step) => ['writeFlushed', 'rename', 'flushFolder'].includes(step));
  expect(order).toEqual(['writeFlushed', 'rename', 'flushFolder']);
});
