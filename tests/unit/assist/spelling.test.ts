import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { spellable, spellingWords } from '../../../procedures-schema/assist/index.ts';
import { isRight } from '../../../renderer/spelling/judging.ts';
import { spellingOf } from '../../../renderer/spelling/variants.ts';
import { assistFixture, type FixtureChange } from '../../support/assist.ts';
import { sample } from '../../support/sample.ts';

const words = (change: FixtureChange, section: string): string => {
  const { facts } = assistFixture(change);
  const own = facts.tree.sections.find(({ title }) => title === section);
  return spellable(facts)
    .filter(({ span }) => own && span.start > own.titleSpan.end && span.end <= own.span.end)
    .map(({ word }) => word)
    .join(' ');
};

test('only words of sentences', () => {
  expect(words({ work: '#. {#wipe} Clean the [scraper] of the DM-10 and `grep`, 5 mm [0.2 in], as in FX-100, by the LED.' }, 'Work')).toBe(
    'Clean the of the and as in by the',
  );
  expect(words({ work: "#. Don't bend the worker’s shim." }, 'Work')).toBe("Don't bend the worker’s shim");
});

test('each word stands where it says', async () => {
  const { report } = await sample();
  for (const facts of report.facts.procedures)
    for (const { word, span } of spellable(facts)) expect(facts.source.text.slice(span.start, span.end)).toBe(word);
});

test('with the words of its registers the sample is spelt right by an English dictionary', async () => {
  const { report } = await sample();
  const load = createRequire(import.meta.url);
  const nspell = load('nspell') as (aff: Buffer, dic: Buffer) => { add(word: string): void; correct(word: string): boolean };
  const folder = load.resolve('dictionary-en').replace(/index\.js$/, '');
  const dictionary = nspell(readFileSync(`${folder}index.aff`), readFileSync(`${folder}index.dic`));
  for (const word of spellingWords(report.facts)) dictionary.add(word);
  const wrong = new Set<string>();
  for (const facts of report.facts.procedures)
    for (const { word } of spellable(facts))
      if (
        !isRight(word, {
          has: (one) => dictionary.correct(one),
          own: () => false,
          spelling: spellingOf(report.facts.registers.house.language),
        })
      )
        wrong.add(word);
  expect([...wrong].sort()).toEqual([]);
});

test('names, plurals, units and verbs of the trade are known', async () => {
  const { report } = await sample();
  const known = new Set(spellingWords(report.facts));
  for (const word of ['platens', 'circlip', 'leveller', 'Orrfen', 'psi', 'untag', 'slackens']) expect(known, word).toContain(word);
  expect([...known]).toEqual([...known].sort());
});
