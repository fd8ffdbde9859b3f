/** The page beside the text: after every key the worker's page is that of a document laid out from nothing, and it follows the place that is asked for. */
import { beforeAll, expect, test } from 'vitest';
import { KeptLibrary } from '../../renderer/worker/library-model.ts';
import { house } from '../../renderer/worker/queries/house.ts';
import { checklist, type PagesShown, pages, pdf, proof } from '../../renderer/worker/queries/pages.ts';
import { type Sample, sample } from '../support/sample.ts';

const file = 'procedures/OM-3140-lip-cylinder.md';
let it: Sample;
let library: KeptLibrary;
let text = '';
beforeAll(async () => {
  it = await sample();
  library = new KeptLibrary();
  library.fonts = it.fonts;
  library.apply(it.texts);
  while (library.waiting > 0) library.readOn(10);
  text = it.texts.find(({ path }) => path === file)?.text ?? '';
});

/** What is seen of a page; which element a word belongs to is counted anew in each state. */
const seen = (page: object): string => JSON.stringify(page, (key, value) => (key === 'node' ? undefined : value));
const fresh = (): PagesShown => pages(library, { file, draft: false }) as PagesShown;
const edit = (from: string, to: string): void => {
  expect(text).toContain(from);
  text = text.replace(from, to);
  library.apply([{ path: file, text }]);
};

test('is the page of a fresh layout after each edit, leafed or led by the caret', () => {
  const words = 'Send everyone off the platform and out of the pit.';
  const longer = `${words} ${'Wait until they are out and count them twice. '.repeat(30)}`;
  const states: (readonly [string, string])[] = [
    [words, `${words} Now.`],
    [`${words} Now.`, longer],
    [longer, words],
  ];
  for (const [from, to] of states) {
    edit(from, to);
    const whole = fresh();
    for (const page of [0, 3, whole.pages.length - 1, whole.pages.length + 5]) {
      const made = proof(library, { file, page });
      expect(made?.count).toBe(whole.pages.length);
      expect(made?.at).toBe(Math.min(page, whole.pages.length - 1));
      expect(seen(made?.page as object)).toBe(seen(whole.pages[made?.at ?? 0] as object));
    }
    const marked = 'doc OM-3140 step 9';
    const made = proof(library, { file, marked });
    const at = whole.pages.findIndex(({ ops }) => ops.some((op) => op.op === 'target' && op.name === marked));
    expect(at).toBeGreaterThan(0);
    expect(made?.at).toBe(at);
  }
});

test('follows to another document and back, and has no page for what is none', () => {
  const another = 'procedures/OM-2120-guide-shoes.md';
  const first = proof(library, { file, page: 2 });
  expect(seen(proof(library, { file: another, page: 2 })?.page as object)).not.toBe(seen(first?.page as object));
  expect(seen(proof(library, { file, page: 2 })?.page as object)).toBe(seen(first?.page as object));
  expect(proof(library, { file: 'procedures/none.md' })).toBeUndefined();
});

test('a state drawn once is not drawn again for another page of it', () => {
  const one = proof(library, { file, page: 1 });
  expect(proof(library, { file, page: 1 })?.page).toBe(one?.page);
});

test("paper of one's own size: as chosen, and refused with the reason", () => {
  const made = pages(library, { file, draft: false, paper: '6 x 9 in' });
  expect([made?.pages[0]?.width, made?.pages[0]?.height]).toEqual([432_000, 648_000]);
  expect(() => pages(library, { file, draft: false, paper: '3 x 5 in' })).toThrow('The smallest is 120 x 170 mm.');
});

test('bound edge and sides: what the document says is told, what is chosen is done, and a booklet has both sides whatever is chosen', () => {
  const guide = { file: 'guides/OM-8010-leveller-and-baler.md', draft: false } as const;
  expect(pages(library, { file, draft: false })).toMatchObject({ duplex: false });
  expect(house(library, { file })).toMatchObject({ binding: 'left', duplex: false });
  expect(pages(library, { file, draft: false, form: 'short' })).toMatchObject({ duplex: true });
  expect(house(library, { file, form: 'short' })).toMatchObject({ duplex: true });
  expect(pages(library, { ...guide, duplex: false })).toMatchObject({ duplex: false });
  expect(house(library, guide)).toMatchObject({ binding: 'left', duplex: true });
  const drawn = (more: object): string => JSON.stringify(pages(library, { file, draft: false, ...more })?.pages);
  const [single, both, top] = [drawn({}), drawn({ duplex: true }), drawn({ duplex: true, binding: 'top' })];
  expect(new Set([single, both, top]).size).toBe(3);
  const press = { kind: 'booklet', sheet: 'a4' } as const;
  expect(drawn({ press })).toBe(both);
  expect(drawn({ press, duplex: false, binding: 'top' })).toBe(both);
  expect(drawn({ press: { ...press, kind: 'two-up' } })).toBe(single);
});

test('an edition for a model that the text is not for is refused by name, and a guide says what it leaves out', () => {
  const baler = { file: 'procedures/OM-2120-guide-shoes.md', model: 'DL-25', draft: false };
  for (const make of [pages, pdf, checklist])
    expect(() => make(library, baler)).toThrow('OM-2120 is not for DL-25. It is for: VB-20, VB-40, VB-60.');
  expect(() => pages(library, { ...baler, form: 'short' })).toThrow('OM-2120 is not for DL-25.');
  const guide = { file: 'guides/OM-8010-leveller-and-baler.md', model: 'DL-25', form: 'short', draft: false } as const;
  expect(pages(library, guide)?.leftOut).toBe('Left out, because not written for DL-25: OM-2110, OM-2120, OM-2130.');
  expect(pages(library, { ...guide, model: 'VB-40' })?.leftOut).toBe('Left out, because not written for VB-40: OM-3140, OM-3150, OM-3160.');
});
