/** Signatures in the list of the library: fresh, stale or not known yet, and never fresh when the sign-off sheet would say otherwise. */
import { beforeAll, describe, expect, test } from 'vitest';
import { EMPTY_RECORD, recordPath, type Signature, writeRecord } from '../../../procedures-schema/review/index.ts';
import { KeptLibrary } from '../../../renderer/worker/library-model.ts';
import { type ReviewOf, reviewOf } from '../../../renderer/worker/queries/record.ts';
import { factsByFile } from '../../../renderer/worker/signatures.ts';
import { longLibrary } from '../../support/long-library.ts';
import { sample } from '../../support/sample.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const GUIDE = 'guides/OM-8010-leveller-and-baler.md';

let texts: Awaited<ReturnType<typeof sample>>['texts'];
beforeAll(async () => {
  ({ texts } = await sample());
});

function opened(): KeptLibrary {
  const library = new KeptLibrary();
  library.apply([...texts]);
  return library;
}

const numberOf = (library: KeptLibrary, file: string): string => factsByFile(library.facts).get(file)?.head.id ?? '';
function told(library: KeptLibrary, file: string) {
  library.signatures.beginList();
  return library.signatures.stateOf(library, file, numberOf(library, file), () => factsByFile(library.facts));
}
const lookUp = (library: KeptLibrary): boolean => library.signatures.lookUp(library, () => false).news;

function sign(library: KeptLibrary, file: string): void {
  put(library, file, ({ verdict }) => ({ verdict: verdict ?? '' }));
}

/** A signature for what stands there now, with what `own` says otherwise of it. */
function put(library: KeptLibrary, file: string, own: (review: ReviewOf) => Partial<Signature>): void {
  const review = reviewOf(library, { file, record: '', whole: true });
  if (review === undefined) throw new Error(`no ${file}`);
  const { hash, number, revision } = review;
  const signature: Signature = { by: 'AB', on: '2026-03-02', as: 'writer', revision, hash, outright: [], ...own(review) };
  library.apply([{ path: recordPath(number), text: writeRecord(number, { ...EMPTY_RECORD, signatures: [signature] }) }]);
}

function edit(library: KeptLibrary, path: string, from: string | RegExp, to: string | ((found: string) => string)): void {
  const before = library.texts.get(path) ?? '';
  const text = typeof to === 'string' ? before.replace(from, to) : before.replace(from, to);
  if (text === before) throw new Error('The edit changed nothing.');
  library.apply([{ path, text }]);
}

describe('a procedure', () => {
  test('that nobody signed has none, without anything being looked up', () => {
    const library = opened();
    expect(told(library, LIP)).toBe('none');
    expect(lookUp(library)).toBe(false);
  });

  test('that was signed is not known, then fresh; after a word is changed not known, then stale, and so until it is known to be fresh again', () => {
    const library = opened();
    sign(library, LIP);
    expect(told(library, LIP)).toBeUndefined();
    expect(lookUp(library)).toBe(true);
    expect(told(library, LIP)).toBe('fresh');
    expect(lookUp(library)).toBe(false);
    const signed = library.texts.get(LIP) ?? '';
    edit(library, LIP, 'Wait 10 min', 'Wait 12 min');
    expect(told(library, LIP)).toBeUndefined();
    lookUp(library);
    expect(told(library, LIP)).toBe('stale');
    library.apply([{ path: LIP, text: signed }]);
    expect(told(library, LIP)).toBe('stale');
    lookUp(library);
    expect(told(library, LIP)).toBe('fresh');
  });

  test('is stale when a register says otherwise of its machine, and stays fresh when another text is edited', () => {
    const library = opened();
    sign(library, LIP);
    lookUp(library);
    edit(library, 'procedures/OM-1110-fan-shake.md', /^title: .*$/m, 'title: Another title');
    lookUp(library);
    expect(told(library, LIP)).toBe('fresh');
    edit(library, 'registers/equipment.yaml', /size: 400 V/g, 'size: 415 V');
    lookUp(library);
    expect(told(library, LIP)).toBe('stale');
  });
});

test.each([
  ['no verdict', {}],
  ['an empty verdict', { verdict: '' }],
  ['words that are no verdict', { verdict: 'looks good' }],
  ['another verdict than that of the proof', { verdict: 'refuted' }],
])('a signature with %s does not hold, though it names the text as it stands', (_, own) => {
  const library = opened();
  put(library, LIP, ({ verdict }) => {
    expect(verdict).toBe('proved');
    return own;
  });
  put(library, GUIDE, () => own);
  lookUp(library);
  expect(told(library, LIP)).toBe('stale');
  expect(told(library, GUIDE)).toBe('stale');
  const [bound] = reviewOf(library, { file: GUIDE, record: '', whole: true })?.bound.filter(({ file }) => file === LIP) ?? [];
  expect(bound?.signed).toBe(0);
});

test('a guide is stale when a procedure that it binds in was changed', () => {
  const library = opened();
  sign(library, GUIDE);
  lookUp(library);
  expect(told(library, GUIDE)).toBe('fresh');
  edit(library, LIP, 'Wait 10 min', 'Wait 12 min');
  lookUp(library);
  expect(told(library, GUIDE)).toBe('stale');
});

test('of every document the list says what its sign-off sheet says, whatever is edited', () => {
  const library = opened();
  const files = [...factsByFile(library.facts).keys()];
  for (const file of files) sign(library, file);
  lookUp(library);
  for (const { path } of texts.filter(({ path: own }) => own.startsWith('procedures/'))) {
    edit(library, path, /^time: .*\n|^people: .*\n|^## .*\n/m, (text) => `${text}\n`.replace('\n\n', '\n<!-- -->\n'));
    lookUp(library);
    for (const file of files) {
      const record = library.texts.get(recordPath(numberOf(library, file))) ?? '';
      const review = reviewOf(library, { file, record, whole: true });
      const holds = review?.record.signatures.some(({ hash, verdict }) => hash === review.hash && verdict === review.verdict);
      expect(`${path} ${file} ${told(library, file)}`).toBe(`${path} ${file} ${holds ? 'fresh' : 'stale'}`);
    }
  }
});

test('looking goes on where it was stopped, and claims nothing while procedures wait to be read', () => {
  const library = new KeptLibrary();
  const files = longLibrary(6);
  library.apply(files.map((file, index) => (file.path.startsWith('procedures/') && index % 2 === 0 ? { ...file, later: true } : file)));
  const [first = ''] = files.map(({ path }) => path).filter((path) => path.startsWith('procedures/'));
  expect(library.signatures.lookUp(library, () => false)).toEqual({ done: true, news: false });
  while (library.readOn(3).waiting > 0);
  sign(library, first);
  let slices = 0;
  for (let done = false; !done; slices += 1) {
    let asked = 0;
    ({ done } = library.signatures.lookUp(library, () => {
      asked += 1;
      return asked > 1;
    }));
  }
  expect(slices).toBeGreaterThan(0);
  expect(told(library, first)).toBe('fresh');
});

test('records of thousands are not read at once for the list: the rest is read when nobody waits', () => {
  const library = opened();
  const numbers = Array.from({ length: 50 }, (_, index) => `OM-9${100 + index}`);
  const record = writeRecord('', {
    ...EMPTY_RECORD,
    remarks: [{ words: 'w', label: '1', by: 'AB', on: '2026-03-02', says: 'Why?', answers: [] }],
  });
  const text = library.texts.get(LIP) ?? '';
  library.apply(
    numbers.flatMap((number) => [
      { path: recordPath(number), text: record },
      { path: `procedures/${number}.md`, text: text.replace(/^id: .*$/m, `id: ${number}`) },
    ]),
  );
  const known = () => {
    library.signatures.beginList();
    return numbers.filter((number) => library.signatures.openRemarks(library, number) === 1).length;
  };
  const first = known();
  expect(first).toBeGreaterThan(0);
  expect(first).toBeLessThan(50);
  lookUp(library);
  expect(known()).toBe(50);
});
