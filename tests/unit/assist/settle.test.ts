import { describe, expect, test } from 'vitest';
import {
  acceptReading,
  applyFileEdits,
  marginOf,
  namesToSettle,
  overridesOf,
  type Proposal,
  proposalOf,
  readingChoices,
  registerName,
  textsOf,
} from '../../../procedures-schema/assist/index.ts';
import { checkLibrary, type LibraryReport } from '../../../procedures-schema/index.ts';
import { assistFixture, FX } from '../../support/assist.ts';

const applied = (report: LibraryReport, proposal: Proposal): LibraryReport => {
  if (!proposal.ok) throw new Error(proposal.reason);
  const texts = new Map(textsOf(report.facts));
  const done = applyFileEdits(proposal.files, texts);
  if (!done.ok) throw new Error('stale');
  for (const { path, text } of done.texts) texts.set(path, text);
  return checkLibrary([...texts].map(([path, text]) => ({ path, text })));
};
const added = (proposal: Proposal): string =>
  proposal.ok ? proposal.files.flatMap(({ edits }) => edits.map(({ text }) => text)).join('') : `no: ${proposal.reason}`;

describe('names to settle', () => {
  const settle = (work: string) => {
    const { facts, library } = assistFixture({ work });
    return namesToSettle(facts, library.registers.families).map(({ name, guesses }) => `${name}: ${guesses[0]?.words}`);
  };
  test('each with a guess from its last word and the words before it', () => {
    expect(
      settle(
        '#. Look at the [dust hood] and the [drain gauge].\n#. Clean the [scraper] with the [round brush].\n#. Look at the [outer bearing].',
      ),
    ).toEqual([
      'dust hood: a cover of the drum mixer',
      'drain gauge: a gauge on the machine of the drum mixer',
      'round brush: a tool',
      'outer bearing: a part of the drum mixer',
    ]);
  });

  test('a slip in one word of a longer name is a slip in the whole name, not a new name of one word', () => {
    const told = (work: string) => {
      const { facts, library } = assistFixture({ work });
      return namesToSettle(facts, library.registers.families).map(({ name, nearest, span }) => [
        name,
        nearest[0],
        facts.source.text.slice(span.start, span.end),
      ]);
    };
    expect(told('#. Tighten the scraper blts.')).toEqual([['scraper blts', 'scraper bolts', 'scraper blts']]);
    expect(told('#. Tighten the scrapr bolts with the [torque wrench].')).toEqual([['scrapr bolts', 'scraper bolts', 'scrapr bolts']]);
    // Near no name of the registers: it is told as it was.
    expect(told('#. Tighten the scraper nozzle.').map(([name]) => name)).toEqual(['nozzle']);
    // A guess at an isolation point may be the wrong valve.
    expect(told('#. Open the dump valv.').map(([, nearest]) => nearest)).toEqual([undefined]);
  });

  test.each(['part', 'tool', 'cover', 'fastener', 'gauge', 'control', 'consumable', 'replacement', 'zone', 'point'] as const)(
    'one click registers a %s, and the name is known',
    (kind) => {
      const { report, facts, library } = assistFixture({ work: '#. Look at the [odd thing].' });
      const [name] = namesToSettle(facts, library.registers.families);
      const guess = name?.guesses.find((one) => one.kind === kind);
      if (!name || !guess) throw new Error('no guess');
      const now = applied(report, registerName(name.name, guess, library));
      const procedure = now.facts.procedures.find(({ file }) => file === FX);
      expect(procedure?.names.lookup('odd thing').map((thing) => thing.kind)).toEqual([kind]);
      expect(now.findings.filter(({ check }) => check === 'names-known' || check === 'front-matter-form')).toEqual([]);
      // What the register then asks for is a value, in its own file and at the new entry.
      for (const finding of now.findings.filter(({ file }) => file === guess.file)) expect(finding.message).toContain('odd thing');
    },
  );

  test('a register that is not there yet, a list that is not, one in brackets', () => {
    const tool = { kind: 'tool', words: 'a tool', file: 'registers/tools.yaml' } as const;
    const { library } = assistFixture({ files: { 'registers/tools.yaml': '' } });
    expect(added(registerName('round brush', tool, library))).toBe('tools:\n  round brush: {}\n');
    const flow = assistFixture({ files: { 'registers/tools.yaml': 'tools: {torque wrench: {kind: torque wrench}}\n' } });
    expect(added(registerName('round brush', tool, flow.library))).toBe(', round brush: {}');
    const part = { kind: 'gauge', words: 'a gauge', family: 'drum mixer', file: 'registers/equipment.yaml' } as const;
    const { library: other } = assistFixture({
      equipment: [
        ['    gauges:', ''],
        ['      air gauge: {shows: air}', ''],
      ],
    });
    expect(added(registerName('oil gauge', part, other))).toBe('    gauges:\n      oil gauge: {}\n');
  });

  test('a name that is there already, and what is no name', () => {
    const { library } = assistFixture();
    const tool = { kind: 'tool', words: 'a tool', file: 'registers/tools.yaml' } as const;
    expect(added(registerName('Torque wrench', tool, library))).toBe('no: registers/tools.yaml has "Torque wrench" already.');
    expect(added(registerName('a]b', tool, library))).toMatch(/^no: /);
  });
});

describe('readings said outright', () => {
  const said = { reads: 'cleans scraper', because: 'brushing is cleaning', by: 'AB' };
  const lineOf = (text: string, words: string): number => text.slice(0, text.indexOf(words)).split('\n').length;

  test('the sentence is then read so, and listed for sign-off', () => {
    const { report, facts, library, text } = assistFixture({ work: '#. Blorf the [scraper].' });
    const line = lineOf(text, 'Blorf');
    const proposal = acceptReading(facts, library, line, said);
    expect(added(proposal)).toBe('{reads="cleans scraper" because="brushing is cleaning" by=AB of=1qsq5w9} ');
    const now = applied(report, proposal);
    const procedure = now.facts.procedures.find(({ file }) => file === FX);
    if (!procedure) throw new Error('no procedure');
    const reading = marginOf(procedure, now.facts).lines.find((one) => one.line === line)?.readings[0];
    expect(reading).toMatchObject({ status: 'read', words: ['cleans scraper'], override: said });
    expect(now.findings.filter(({ check }) => check === 'attributes' || check === 'sentence-read')).toEqual([]);
    expect(overridesOf(now.facts)).toMatchObject([{ fullLabel: 'Work 1', ...said, wanting: [] }]);
  });

  test('an id stays, a reading said before is changed', () => {
    const { facts, library, text } = assistFixture({ work: '#. {#wipe reads="nothing" because="x" by=CD} Blorf the [scraper].' });
    const proposal = acceptReading(facts, library, lineOf(text, 'Blorf'), said);
    expect(proposal.ok && proposal.files[0]?.lines[0]?.after[0]).toBe(
      '1. {#wipe reads="cleans scraper" because="brushing is cleaning" by=AB of=1qsq5w9} Blorf the [scraper].',
    );
  });

  test.each([
    [{ ...said, reads: 'locks main isolator' }, 'cannot be said outright'],
    [{ ...said, reads: 'tries start button' }, 'cannot be said outright'],
    [{ ...said, reads: 'constructor scraper' }, 'cannot be said outright'],
    [{ ...said, reads: 'cleans nobody' }, 'is not a registered name'],
    [{ ...said, reads: 'isolates torque wrench' }, 'cannot be said of torque wrench'],
    [{ ...said, reads: 'isolates dump valve' }, 'cannot be said of dump valve'],
    [{ ...said, because: ' ' }, 'needs its reason'],
    [{ ...said, by: '' }, 'initials'],
    [{ ...said, because: 'a "quote"' }, 'cannot stand in it'],
  ])('%j is refused', (wrong, reason) => {
    const { facts, library, text } = assistFixture({ work: '#. Blorf the [scraper].' });
    expect(added(acceptReading(facts, library, lineOf(text, 'Blorf'), wrong))).toContain(reason);
  });

  test('what may be said: verbs with what the step names', () => {
    const { facts, text } = assistFixture({ work: '#. Blorf the [scraper].' });
    const choices = readingChoices(facts, lineOf(text, 'Blorf'));
    expect(choices).toContain('cleans scraper');
    expect(choices.at(-1)).toBe('nothing');
    expect(choices.some((choice) => /lock|try|clear/.test(choice))).toBe(false);
  });

  test.each([
    ['[scraper]', 'removes, refits, cleans, adjusts, moves, observes'],
    ['[main isolator]', 'isolates, restores, observes'],
    ['[dump valve]', 'relieves, observes'],
    ['[air gauge]', 'measures, cleans, observes'],
    ['[scraper bolts]', 'removes, refits, cleans, observes'],
    ['[side guard]', 'opens, removes, refits, closes, cleans, adjusts, moves, observes'],
    ['[torque wrench]', 'cleans, observes'],
    ['[degreaser]', ''],
  ])('of %s only what can be done to it: %s', (name, verbs) => {
    const { facts, text } = assistFixture({ work: `#. Blorf the ${name}.` });
    const choices = readingChoices(facts, lineOf(text, 'Blorf'));
    expect(choices.slice(0, -1).map((choice) => choice.split(' ')[0])).toEqual(verbs === '' ? [] : verbs.split(', '));
  });

  test('what is done to a tool comes after what is done with it', () => {
    const { facts, text } = assistFixture({ work: '#. Use the [torque wrench] to blorf the [scraper].' });
    const choices = readingChoices(facts, lineOf(text, 'to blorf'));
    expect(choices[0]).toBe('removes scraper');
    expect(choices.at(-2)).toBe('observes torque wrench');
  });

  test.each([
    ['isolates torque wrench', 'unread'],
    ['isolates scraper', 'unread'],
    ['isolates', 'unread'],
    ['isolates main isolator', 'read'],
    ['cleans', 'read'],
  ])('"%s", written by hand, is %s', (reads, status) => {
    const { facts, library, text } = assistFixture({
      work: `#. {reads="${reads}" because=so by=AB of=1qsq5w9} Blorf the [scraper].`,
    });
    const line = lineOf(text, 'Blorf');
    expect(marginOf(facts, library).lines.find((one) => one.line === line)?.readings[0]?.status).toBe(status);
  });

  test('one without reason or initials is listed with what it wants', () => {
    const { library } = assistFixture({ work: '#. {reads="nothing"} Blorf the [scraper].' });
    expect(overridesOf(library)[0]?.wanting).toEqual(['It gives no reason.', 'It carries no initials.', 'It is not bound to its words.']);
  });

  test('one whose words changed says nothing until somebody looks again', () => {
    const { report, facts, library, text } = assistFixture({ work: '#. Blorf the [scraper].' });
    const signed = applied(report, acceptReading(facts, library, lineOf(text, 'Blorf'), said)).facts;
    const file = signed.procedures.find((one) => one.file === FX) as (typeof signed.procedures)[number];
    const edit = { file: FX, start: file.source.text.indexOf('Blorf'), end: file.source.text.indexOf('Blorf') + 5, text: 'Blarf' };
    const changed = applied({ ...report, facts: signed }, proposalOf('another word', [edit], textsOf(signed)));
    expect(changed.findings.filter(({ check }) => check === 'reading-said')).toHaveLength(1);
    expect(overridesOf(changed.facts)[0]?.wanting).toEqual(['The words have changed since it was said.']);
  });
});
