/** Scripts and recordings as text: the fixture library with one procedure, told. */
import { type Passage, type Script, scriptOf } from '../../procedures-schema/narration/index.ts';
import { assistFixture, type FixtureChange } from './assist.ts';
import { sample } from './sample.ts';

export function fixtureScript(change: FixtureChange = {}, model?: string): Script {
  const { facts, library } = assistFixture(change);
  return scriptOf(facts, library, model === undefined ? {} : { model });
}

/** The same in a library of this language: how it writes numbers. */
export function fixtureScriptIn(language: string, change: FixtureChange = {}): Script {
  const { facts, library } = assistFixture(change);
  const { registers } = library;
  return scriptOf(facts, { ...library, registers: { ...registers, house: { ...registers.house, language } } });
}

/** The passages of one section, a line each: kind, label, words. */
export const told = (script: Script, section = 'Work'): string =>
  script.passages
    .filter(({ sectionTitle, kind }) => sectionTitle === section && kind !== 'section')
    .map(({ kind, label, spoken }) => `${kind} ${label ?? '-'} ${spoken}`)
    .join('\n');

export const passage = (script: Script, words: string): Passage => {
  const found = script.passages.find(({ said, kind }) => kind !== 'section' && said.includes(words));
  if (!found) throw new Error(`no passage says "${words}"`);
  return found;
};

/** The script of a sample procedure. */
export async function sampleScript(number: string, model?: string): Promise<Script> {
  const { report } = await sample();
  const facts = report.facts.procedures.find(({ head }) => head.id === number);
  if (!facts) throw new Error(`no sample procedure ${number}`);
  return scriptOf(facts, report.facts, model === undefined ? {} : { model });
}
