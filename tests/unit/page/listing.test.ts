/** The list of documents: one key sends one line, and the page's list is at every moment what the worker would list whole. */
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { Listing } from '../../../renderer/state/listing.ts';
import { KeptLibrary } from '../../../renderer/worker/library-model.ts';
import type { Overview, OverviewNews } from '../../../renderer/worker/queries/queries.ts';
import { longLibrary } from '../../support/long-library.ts';

/** The worker's side, with nothing told yet. */
async function asked(library: KeptLibrary): Promise<OverviewNews | undefined> {
  return (await import('../../../renderer/worker/queries/overview.ts')).overview(library, {});
}
async function forgotten(): Promise<void> {
  vi.resetModules();
  await import('../../../renderer/worker/queries/overview.ts');
}

const files = longLibrary(24);
const isProcedure = ({ path }: { readonly path: string }): boolean => path.startsWith('procedures/');
function opened(): KeptLibrary {
  const library = new KeptLibrary();
  const [first] = files.filter(isProcedure);
  library.apply(files.map((file) => (isProcedure(file) && file !== first ? { ...file, later: true as const } : file)));
  return library;
}

describe('what is told of the documents', () => {
  test('is all at first, nothing when nothing changed, and one line for one title', async () => {
    await forgotten();
    const library = opened();
    const first = await asked(library);
    expect(first?.lines).toHaveLength(24);
    expect(first?.lines.filter(({ waits }) => waits)).toHaveLength(23);
    expect(await asked(library)).toBeUndefined();
    const [own] = files.filter(isProcedure);
    if (own === undefined) throw new Error('no procedure');
    library.apply([{ path: own.path, text: own.text.replace(/^title: .*/m, 'title: Another title') }]);
    expect((await asked(library))?.lines.map(({ file, title }) => [file, title])).toEqual([[own.path, 'Another title']]);
    library.apply([{ path: own.path, text: `${own.text.replace(/^title: .*/m, 'title: Another title')}\n` }]);
    expect(await asked(library)).toBeUndefined();
  });

  test('leaves no line without words, and no procedure without a verdict', async () => {
    await forgotten();
    const library = new KeptLibrary();
    library.apply([{ path: 'procedures/notes from the shop.md', text: 'Nothing of a procedure.\n' }]);
    const [line] = (await asked(library))?.lines ?? [];
    expect(line?.title).toBe('notes from the shop.md');
    expect(line?.verdict).toBe('not proved');
  });

  describe('while somebody types in the front matter', () => {
    const EDITS: Readonly<Record<string, (text: string) => string>> = {
      'its fence is gone': (text) => text.replace(/^---\n/, ''),
      'a title holds a colon': (text) => text.replace(/^title: .*/m, 'title: Check: the fan'),
      'a key is half typed': (text) => text.replace(/^models:/m, 'par\nmodels:'),
      'a bracket is open': (text) => text.replace(/^models:/m, 'models: [EF'),
      'the number is half gone': (text) => text.replace(/^id:/m, 'i'),
      'a line begins with a tab': (text) => text.replace(/^models:/m, '\tmodels'),
    };
    const placed = ({ number, families, symptoms }: OverviewNews['lines'][number]) => ({ number, families, symptoms });

    test.each(Object.keys(EDITS))('%s: it stays where it was, marked, and is marked no more when mended', async (name) => {
      await forgotten();
      const library = opened();
      const [own] = files.filter(isProcedure);
      const before = (await asked(library))?.lines.find(({ file }) => file === own?.path);
      if (own === undefined || before === undefined) throw new Error('no procedure');
      expect([before.unread, before.families.length]).toEqual([undefined, 1]);
      library.apply([{ path: own.path, text: (EDITS[name] as (text: string) => string)(own.text) }]);
      const [line] = (await asked(library))?.lines ?? [];
      expect(line?.unread).toBe(true);
      expect(line && placed(line)).toEqual(placed(before));
      library.apply([{ path: own.path, text: own.text }]);
      expect((await asked(library))?.lines).toEqual([before]);
    });

    test('opened so, it stands where its lines look like', async () => {
      await forgotten();
      const library = new KeptLibrary();
      const [own] = files.filter(isProcedure);
      if (own === undefined) throw new Error('no procedure');
      const broken = own.text.replace(/^title: .*/m, 'title: Check: the fan');
      library.apply(files.map((file) => (file.path === own.path ? { ...file, text: broken } : file)));
      const line = (await asked(library))?.lines.find(({ file }) => file === own.path);
      expect([line?.unread, line?.families, line?.verdict]).toEqual([true, ['extraction fan'], 'not proved']);
    });

    test('a machine that left the register is no place for it', async () => {
      await forgotten();
      const library = opened();
      await asked(library);
      const equipment = files.find(({ path }) => path === 'registers/equipment.yaml');
      const [own] = files.filter(isProcedure);
      if (equipment === undefined || own === undefined) throw new Error('no register');
      library.apply([{ path: equipment.path, text: 'families: {}\nmodels: {}\n' }]);
      expect((await asked(library))?.lines.find(({ file }) => file === own.path)?.families).toEqual([]);
    });
  });

  test('makes, bit by bit, the list that is told whole', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.nat(3), fc.nat(23)), { maxLength: 6 }), async (deeds) => {
        await forgotten();
        const library = opened();
        const listing = new Listing();
        let shown: Overview | undefined;
        const ask = async (): Promise<void> => {
          const news = await asked(library);
          if (news) shown = listing.take(news);
        };
        await ask();
        for (const [deed, at] of deeds) {
          const { path, text } = files.filter(isProcedure)[at] ?? { path: '', text: '' };
          if (deed === 0) library.readOn(at);
          else if (deed === 1) library.apply([{ path, gone: true }]);
          else library.apply([{ path, text: text.replace(/^title: .*/m, `title: Title ${deed}`) }]);
          await ask();
        }
        await forgotten();
        const whole = await asked(library);
        expect(shown).toEqual(new Listing().take(whole as OverviewNews));
      }),
      { numRuns: 8 },
    );
  });
});

describe('what was kept of the last reading', () => {
  const line = (file: string, more: Partial<OverviewNews['lines'][number]> = {}): OverviewNews['lines'][number] => ({
    file,
    kind: 'procedure',
    number: file,
    title: file,
    revision: '',
    families: [],
    models: [],
    symptoms: [],
    verdict: undefined,
    openRemarks: 0,
    signature: 'none',
    ...more,
  });
  const news = (...lines: OverviewNews['lines'][number][]): OverviewNews => ({
    lines,
    gone: [],
    publisher: '',
    models: [],
    machines: [],
    registers: [],
  });
  const verdicts = ({ documents }: Overview) => documents.map(({ file, verdict }) => `${file} ${verdict}`);

  test('is taken back where it does not hold; what was read since stays', () => {
    const listing = new Listing();
    listing.take(news(line('a', { waits: true }), line('b', { waits: true })));
    listing.seed({
      publisher: '',
      models: [],
      machines: [],
      registers: [],
      documents: ['a', 'b'].map((file) => line(file, { verdict: 'proved' })),
    });
    listing.take(news(line('b', { verdict: 'refuted' })));
    expect(verdicts(listing.unseed())).toEqual(['a undefined', 'b refuted']);
    expect(verdicts(listing.take(news(line('a', { verdict: 'not proved' }))))).toEqual(['a not proved', 'b refuted']);
  });

  test('stands until the document is read anew, and does not stand over what was read', () => {
    const listing = new Listing();
    listing.take(news(line('a', { verdict: 'refuted' }), line('b', { waits: true }), line('c', { waits: true })));
    const kept = { publisher: '', models: [], machines: [], registers: [] };
    const proved = ['a', 'b', 'c', 'd'].map((file) => line(file, { verdict: 'proved' }));
    // One that is gone does not come back.
    expect(verdicts(listing.seed({ ...kept, documents: proved }))).toEqual(['a refuted', 'b proved', 'c proved']);
    expect(verdicts(listing.take(news(line('b', { waits: true }), line('c', { verdict: 'not proved' }))))).toEqual([
      'a refuted',
      'b proved',
      'c not proved',
    ]);
    // Put off again after it was read: nothing is claimed of it.
    expect(verdicts(listing.take(news(line('c', { waits: true }))))).toEqual(['a refuted', 'b proved', 'c undefined']);
  });
});
