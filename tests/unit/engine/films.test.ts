/** What `film-fits` says while a library is edited: the same as a check of the whole, and only while the film and its text have come apart. */
import { describe, expect, test } from 'vitest';
import { type Change, checkLibrary, type Engine, newEngine } from '../../../procedures-schema/index.ts';
import { scriptOf, writeRecord } from '../../../procedures-schema/narration/index.ts';
import { assistFixture, FX } from '../../support/assist.ts';

const WORK = '#. Loosen the two [scraper bolts] by one turn.\n#. Wipe the [air hose] and look at it along its length.';
const { texts, facts, library } = assistFixture({ work: WORK });
const RECORD = 'narration/FV-100.yaml';
const CAPTIONS = 'narration/FV-100.vtt';
const record = writeRecord(scriptOf(facts, library), { number: 'FV-100', revision: 'A', captions: CAPTIONS });
const procedure = texts.find(({ path }) => path === FX)?.text ?? '';

function told(engine: Engine): string[] {
  const files = [...engine.texts].map(([path, text]) => ({ path, text }));
  const found = (findings: ReturnType<typeof checkLibrary>['findings']): string[] =>
    findings.filter(({ check }) => check === 'film-fits').map(({ severity, message }) => `${severity}: ${message}`);
  const now = found(engine.report().findings);
  // Told is what a check of the whole library tells.
  expect(now).toEqual(found(checkLibrary(files, paths).findings));
  return now;
}

let paths: string[] = [];
function begun(...more: readonly Change[]): Engine {
  const engine = newEngine();
  paths = [CAPTIONS];
  engine.apply([...texts, { path: RECORD, text: record }, { path: CAPTIONS, present: true }, ...more]);
  return engine;
}
const edited = (from: string | RegExp, to: string): Change => ({ path: FX, text: procedure.replace(from, to) });

describe('a film of a procedure', () => {
  test('fits the text it was made from', () => expect(told(begun())).toEqual([]));
  test.each([
    [
      'other words',
      edited('along its length', 'all along its length'),
      'warning: FX-100 has changed since the film FV-100 was made: voice again "Work".',
    ],
    [
      'another thing to be seen',
      edited('the [air hose]', 'the [scraper]'),
      'warning: FX-100 has changed since the film FV-100 was made: film again "Work".',
    ],
    [
      'the same said and otherwise written',
      edited('by one turn', 'by 1 turn'),
      'advice: FX-100 has changed since the film FV-100 was made: caption again "Work".',
    ],
    [
      'a step gone',
      edited(/\d+\. Wipe the .*\n/, ''),
      'warning: FX-100 has changed since the film FV-100 was made: cut out one passage that the text no longer has.',
    ],
  ] as const)('%s, then as it was', (_, change, expected) => {
    const engine = begun();
    engine.apply([change]);
    expect(told(engine)).toEqual([expected]);
    engine.apply([{ path: FX, text: procedure }]);
    expect(told(engine)).toEqual([]);
  });
  test('made again: its new record fits', () => {
    const engine = begun(edited('along its length', 'all along its length'));
    const { facts } = engine.report();
    const own = facts.procedures.find(({ file }) => file === FX);
    if (!own) throw new Error('no procedure');
    engine.apply([{ path: RECORD, text: writeRecord(scriptOf(own, facts), { number: 'FV-100', revision: 'B', captions: CAPTIONS }) }]);
    expect(told(engine)).toEqual([]);
  });
  test('of a procedure that got another number', () => {
    const engine = begun();
    engine.apply([edited('id: FX-100', 'id: FX-101')]);
    expect(told(engine)).toEqual(['warning: FX-100, which the film FV-100 shows, is not in this library.']);
  });
  test('for a model that the procedure is not for', () => {
    const engine = begun({ path: RECORD, text: record.replace('procedure: ', 'model: DM-99\nprocedure: ') });
    expect(told(engine)).toEqual(['warning: The film FV-100 is for DM-99, which FX-100 is not for.']);
  });
  test('whose captions go', () => {
    const engine = begun();
    paths = [];
    engine.apply([{ path: CAPTIONS, gone: true }]);
    expect(told(engine)).toEqual([`warning: The captions "${CAPTIONS}" are not in the library.`]);
  });
  test('whose record is hardly one', () => {
    const engine = begun({ path: RECORD, text: 'number: FV-100\n' });
    expect(told(engine)).toEqual(['warning: A record of a film must say procedure, text hash.']);
  });
});
