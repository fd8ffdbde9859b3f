/** What a signature is given for: it names another thing as soon as the registers or a called procedure say otherwise, and only then. */
import { beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary, type LibraryFacts } from '../../../procedures-schema/index.ts';
import { boundIn, signedOf, verdictOf } from '../../../procedures-schema/review/index.ts';
import { contentHash } from '../../../publishing/index.ts';
import { sample } from '../../support/sample.ts';

const LIP = 'OM-3140';
type Edit = (text: string) => string;

let texts: Awaited<ReturnType<typeof sample>>['texts'];
let paths: readonly string[];
beforeAll(async () => {
  ({ texts, paths } = await sample());
});

function edited(path: string, edit: Edit): LibraryFacts {
  const files = texts.map((file) => (file.path === path ? { path, text: edit(file.text) } : file));
  if (files.every(({ text }, index) => text === texts[index]?.text)) throw new Error('The edit changed nothing.');
  return checkLibrary(files, [...paths]).facts;
}

const own = (library: LibraryFacts, number: string) => {
  const facts = library.procedures.find(({ head }) => head.id === number);
  if (!facts) throw new Error('no such procedure');
  return facts;
};
const hash = (library: LibraryFacts, number: string): string => contentHash(signedOf(own(library, number), library));
const asItWas = async (number: string): Promise<string> => hash((await sample()).report.facts, number);
const EQUIPMENT = 'registers/equipment.yaml';

describe('what was signed', () => {
  test('is another thing when a machine has one source of energy more, and its proof fails', async () => {
    const library = edited(EQUIPMENT, (text) => {
      const at = text.indexOf('energy:', text.indexOf('  dock leveller:')) + 'energy:'.length;
      const source = '\n      hidden spring:\n        kind: spring\n        size: 500 N\n        restrain: {spring bolt: in}';
      return (text.slice(0, at) + source + text.slice(at)).replace(/(pit: \{[^}]*endangered by: \[)/, '$1hidden spring, ');
    });
    expect(verdictOf([own(library, LIP)])).toBe('refuted');
    expect(hash(library, LIP)).not.toBe(await asItWas(LIP));
  });

  test('is the same for machines of other families, and when a comment more stands in the register', async () => {
    const other = edited(EQUIPMENT, (text) => text.replace(/size: 400 V/, 'size: 415 V'));
    const changed = (
      await Promise.all(other.procedures.map(async ({ head }) => (hash(other, head.id) === (await asItWas(head.id)) ? [] : [head.id])))
    ).flat();
    expect(changed.length).toBeGreaterThan(0);
    expect(changed.length).toBeLessThan(other.procedures.length);
    const spaced = edited(EQUIPMENT, (text) => `# Checked on the machines.\n\n${text}`);
    expect(hash(spaced, LIP)).toBe(await asItWas(LIP));
  });

  test('is another thing when a tool that it names is, and the same when another tool is', async () => {
    const named = edited('registers/tools.yaml', (text) =>
      text.replace(/^ {2}laser distance meter:.*(\n {4}.*)*/m, '  laser distance meter: {kind: laser distance meter, range: 0.1 to 9 m}'),
    );
    expect(hash(named, LIP)).not.toBe(await asItWas(LIP));
    const added = edited('registers/tools.yaml', (text) => `${text.trimEnd()}\n  odd wrench: {kind: hand tool, size: 99 mm}\n`);
    expect(hash(added, LIP)).toBe(await asItWas(LIP));
  });

  test('is another thing when a procedure that its reader is sent through says otherwise', async () => {
    const LOCK_OUT = 'procedures/OM-4110-press-lock-out.md';
    const library = edited(LOCK_OUT, (text) => text.replace(/(\d+) min/, '$15 min'));
    const callers = library.procedures.filter(({ head, source }) => head.id !== 'OM-4110' && source.text.includes('OM-4110'));
    expect(callers.length).toBeGreaterThan(0);
    for (const { head } of callers) expect(hash(library, head.id), head.id).not.toBe(await asItWas(head.id));
    expect(hash(library, LIP)).toBe(await asItWas(LIP));
  });

  test('is the same for a text that does not touch the bolt whose torque changed, and another thing for one that does', async () => {
    const library = edited(EQUIPMENT, (text) => text.replace('hub bolt: {count: 1, torque: 45', 'hub bolt: {count: 1, torque: 55'));
    expect(hash(library, 'OM-1110')).not.toBe(await asItWas('OM-1110'));
    expect(hash(library, 'OM-1130')).toBe(await asItWas('OM-1130'));
  });

  test('of a guide holds every procedure that it binds in', async () => {
    const { facts } = (await sample()).report;
    const guide = facts.guides.find(({ head }) => head.id === 'OM-8010');
    expect(guide && boundIn(guide, facts).map(({ head }) => head.id)).toEqual([
      'OM-3140',
      'OM-3150',
      'OM-3160',
      'OM-2110',
      'OM-2120',
      'OM-2130',
    ]);
  });
});
