/** A library read bit by bit ends where one read at once does; until then nothing is claimed that only the whole can say. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Delta, type Engine, guessHead, newEngine, readBackground, readFile } from '../../../procedures-schema/index.ts';
import { sample } from '../../support/sample.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

/** "file check message" of all findings there are, kept up to date from the deltas alone, as the page does it. */
function keeper() {
  const known = new Map<string, readonly string[]>();
  let between: readonly string[] = [];
  return {
    take({ findings, between: now }: Delta): void {
      for (const [file, own] of findings)
        known.set(
          file,
          own.map(({ check, message }) => `${file} ${check} ${message}`),
        );
      between = now.map(({ file, check, message }) => `${file} ${check} ${message}`);
    },
    all: () => [...between, ...[...known.values()].flat()].sort(),
  };
}

async function texts(edit = (text: string) => text) {
  const { texts: files, paths } = await sample();
  const own = files.map(({ path, text }) => ({ path, text: path === LIP ? edit(text) : text }));
  return { own, others: paths.filter((path) => !own.some((file) => file.path === path)).map((path) => ({ path, present: true as const })) };
}

function readAllOn(engine: Engine, take: (delta: Delta) => void, count = 3): void {
  for (let delta = engine.readOn(count); ; delta = engine.readOn(count)) {
    take(delta);
    if (delta.waiting === 0) return;
  }
}

describe('a library that is read bit by bit', () => {
  test.each([
    ['clean', (text: string) => text],
    ['with a lock gone', (text: string) => text.replace(/^2\. Put your lock.*\n/m, '')],
    ['with another number', (text: string) => text.replace('id: OM-3140', 'id: OM-3999')],
  ])('%s: the same findings in the end', async (_, edit) => {
    const { own, others } = await texts(edit);
    const whole = keeper();
    whole.take(newEngine().apply([...own, ...others]));
    const engine = newEngine();
    const kept = keeper();
    kept.take(engine.apply([...own.map((file) => ({ ...file, later: file.path.startsWith('procedures/') })), ...others]));
    readAllOn(engine, kept.take);
    expect(kept.all()).toEqual(whole.all());
    expect(engine.report().facts.procedures.map(({ file }) => file)).toEqual(
      own
        .map(({ path }) => path)
        .filter((path) => path.startsWith('procedures/'))
        .sort(),
    );
  });

  test('the one that is open is read at once, with those it calls; an edit meanwhile is an edit', async () => {
    const { own, others } = await texts();
    const engine = newEngine();
    const kept = keeper();
    const first = engine.apply([
      ...own.map((file) => ({ ...file, later: file.path.startsWith('procedures/') && file.path !== LIP })),
      ...others,
    ]);
    kept.take(first);
    expect(first.waiting).toBe(18);
    expect(kept.all().filter((line) => !line.includes('instrument-fits'))).toEqual([]);
    kept.take(engine.readOn(2));
    const broken = (own.find(({ path }) => path === LIP)?.text ?? '').replace(/^2\. Put your lock.*\n/m, '');
    kept.take(engine.apply([{ path: LIP, text: broken }]));
    expect(kept.all().join('\n')).toMatch(/not locked/);
    readAllOn(engine, kept.take);
    kept.take(engine.apply([{ path: LIP, text: own.find(({ path }) => path === LIP)?.text ?? '' }]));
    const whole = keeper();
    whole.take(newEngine().apply([...own, ...others]));
    expect(kept.all()).toEqual(whole.all());
  });

  test('no procedure is told wrong for naming one that was not read yet', async () => {
    const { own, others } = await texts();
    for (const { path: first } of own.filter(({ path }) => path.startsWith('procedures/'))) {
      const engine = newEngine();
      const { findings } = engine.apply([
        ...own.map((file) => ({ ...file, later: file.path.startsWith('procedures/') && file.path !== first })),
        ...others,
      ]);
      const errors = [...findings.values()].flat().filter(({ severity }) => severity !== 'advice');
      expect(errors.map(({ file, check, message }) => `${file} ${check} ${message}`)).toEqual([]);
    }
  });

  test('while any wait, nothing is said between files', async () => {
    const { own, others } = await texts();
    const engine = newEngine();
    const registersOnly = own.map((file) => ({ ...file, later: file.path.startsWith('procedures/') }));
    expect(engine.apply([...registersOnly, ...others]).between).toEqual([]);
    expect(engine.report().facts.visits).toEqual([]);
  });
});

describe('a guess at number and title', () => {
  const told = async (text: string) => {
    const { own } = await texts();
    const background = readBackground(own.filter(({ path }) => !path.startsWith('procedures/')));
    const { head } = readFile({ path: 'procedures/x.md', text }, background);
    return { id: head.id, title: head.title };
  };

  test('is what the reader says, for every sample procedure', async () => {
    for (const { path, text } of (await texts()).own)
      if (path.startsWith('procedures/')) expect(guessHead(text), path).toEqual(await told(text));
  });

  test('is what the reader says whatever stands there, or is none', async () => {
    const value = fc.oneof(
      fc.constantFrom(
        'OM-1',
        '"OM-1"',
        "'OM-1'",
        'a: b',
        '# x',
        'OM-1 # x',
        '|',
        '>-',
        '[a]',
        '*a',
        '&a b',
        'null',
        'yes',
        '12',
        '1e3',
        ' x ',
        '"a \\" b"',
        'é',
        '- x',
        '!a b',
      ),
      fc.string({ maxLength: 12 }),
    );
    await fc.assert(
      fc.asyncProperty(value, value, fc.constantFrom('', '\n  more', '\nid: again', '\ntitle: again'), async (id, title, rest) => {
        const text = `---\nid: ${id}\ntitle: ${title}${rest}\nmodels: [DL-20]\n---\n\n## Do\n\n1. Wait.\n`;
        const guess = guessHead(text);
        if (guess) expect(guess).toEqual(await told(text));
      }),
      { numRuns: 400 },
    );
  });
});
