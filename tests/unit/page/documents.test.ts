/** The journal of texts: undo leaves each library as it was, invents no file, and touches no text that is another's by now. */
import { describe, expect, test } from 'vitest';
import { Documents } from '../../../renderer/state/documents.ts';

const A = 'procedures/a.md';
const NEW = 'procedures/new.md';

function library(): Documents {
  const documents = new Documents();
  documents.fromDisk(A, 'one two', 'hash a');
  return documents;
}
const make = (documents: Documents, path = NEW): void => documents.edit('make', [{ path, edits: [{ start: 0, end: 0, text: 'text' }] }], 0);
const put = (documents: Documents, text: string, at = 0): void =>
  documents.edit('put', [{ path: A, edits: [{ start: at, end: at, text }] }], 0);

describe('a text that was made here', () => {
  test('is gone after undo, and there again after redo', () => {
    const documents = library();
    make(documents);
    expect(documents.unsaved().map(({ path }) => path)).toEqual([NEW]);
    documents.undo();
    expect(documents.get(NEW)).toBeUndefined();
    expect(documents.unsaved()).toEqual([]);
    documents.redo();
    expect(documents.get(NEW)).toMatchObject({ text: 'text', base: null });
  });

  test('stays as it is once it is on disk, and undo says so', () => {
    const documents = library();
    make(documents);
    documents.saved(NEW, 'text', 'hash new');
    expect(documents.undo()).toMatchObject({ applied: [], left: [NEW] });
    expect(documents.get(NEW)?.text).toBe('text');
    expect(documents.unsaved()).toEqual([]);
    // What was not undone is not done again either.
    expect(documents.next).toEqual({ undo: undefined, redo: undefined });
  });

  test('is not made again over a file that came to its place meanwhile', () => {
    const documents = library();
    make(documents);
    documents.undo();
    documents.fromDisk(NEW, 'theirs', 'hash theirs');
    documents.redo();
    expect(documents.get(NEW)?.text).toBe('theirs');
  });
});

describe('a text that is gone from the disk', () => {
  test('is not brought back empty by undo', () => {
    const documents = library();
    put(documents, 'zero ');
    documents.saved(A, 'zero one two', 'hash b');
    documents.gone(A);
    expect(documents.undo()).toBeUndefined();
    expect(documents.list()).toEqual([]);
  });

  test('has no edits left for the text that comes in its place', () => {
    const documents = library();
    put(documents, 'zero ');
    documents.undo();
    documents.gone(A);
    documents.fromDisk(A, 'other', 'hash c');
    documents.redo();
    expect(documents.get(A)?.text).toBe('other');
  });

  test('leaves the rest of what was done with it to undo', () => {
    const documents = library();
    documents.fromDisk('procedures/b.md', 'b', 'hash b');
    const edits = [{ start: 0, end: 0, text: 'x' }];
    documents.edit(
      'both',
      [A, 'procedures/b.md'].map((path) => ({ path, edits })),
      0,
    );
    documents.gone(A);
    expect(documents.undo()?.applied).toEqual([{ path: 'procedures/b.md', edits: [{ start: 0, end: 1, text: '' }] }]);
    expect(documents.get('procedures/b.md')?.text).toBe('b');
  });
});

describe('a text that was taken away here', () => {
  test('is brought back by undo as unsaved text, whatever was done before it too', () => {
    const documents = library();
    put(documents, 'zero ');
    documents.saved(A, 'zero one two', 'hash b');
    documents.remove('take away', A);
    expect(documents.get(A)).toBeUndefined();
    expect(documents.unsaved()).toEqual([]);
    documents.undo();
    expect(documents.get(A)).toMatchObject({ text: 'zero one two', base: null });
    documents.undo();
    expect(documents.get(A)?.text).toBe('one two');
  });

  test('keeps its byte-order mark', () => {
    const documents = new Documents();
    documents.fromDisk(A, '\uFEFFone', 'hash');
    documents.remove('take away', A);
    documents.undo();
    expect(documents.get(A)).toMatchObject({ text: 'one', bom: true });
  });

  test('is not taken away again by redo when it was saved since', () => {
    const documents = library();
    documents.remove('take away', A);
    documents.undo();
    documents.saved(A, 'one two', 'hash d');
    expect(documents.redo()).toMatchObject({ applied: [], left: [A] });
    expect(documents.get(A)?.text).toBe('one two');
  });
});

test('a file with another name has its text, its place on disk and all that can be undone', () => {
  const documents = library();
  put(documents, 'zero ');
  documents.rename(A, NEW);
  expect(documents.get(A)).toBeUndefined();
  expect(documents.get(NEW)).toMatchObject({ path: NEW, text: 'zero one two', base: 'hash a', saved: 'one two' });
  documents.undo();
  expect(documents.get(NEW)?.text).toBe('one two');
  expect(documents.list()).toHaveLength(1);
});

test('typing is joined into one undo, and tells its title', () => {
  const documents = library();
  documents.edit('Typing', [{ path: A, edits: [{ start: 7, end: 7, text: 'x' }] }], 0, true);
  documents.edit('Typing', [{ path: A, edits: [{ start: 8, end: 8, text: 'y' }] }], 100, true);
  expect(documents.undo()).toMatchObject({ title: 'Typing', left: [] });
  expect(documents.get(A)?.text).toBe('one two');
  expect(documents.next.undo).toBeUndefined();
});
