/**
 * The form of a checklist file: a small one that is right, and changes that must each be refused.
 * Source: the project's own rules (notices never part from their step; a draft says so in every data file; the required state is said,
 * never a fact).
 */
import { describe, expect, test } from 'vitest';
import { violationsOf } from '../../../procedures-schema/schemas/index.ts';

const warning = {
  kind: 'notice',
  word: 'warning',
  panel: 'WARNING',
  text: 'The drum can turn. It can crush a hand. Put the pin in first.',
};
const step = {
  kind: 'step',
  label: '4',
  fullLabel: 'Check 4',
  id: 'read',
  text: 'Read the scraper gap.',
  notices: [warning],
  entry: {
    kind: 'reading',
    measurement: 'scraper gap',
    quantity: 'length',
    at: 'middle of the blade',
    with: 'feeler gauge',
    unit: 'mm',
    limits: [
      { model: 'DM-10', lower: '0.50', upper: '1.50', text: '0.50 to 1.50 mm' },
      { model: 'DM-20', upper: '3/2', text: 'at most 1 1/2 mm' },
    ],
  },
  branches: [
    { condition: 'it is within the limits', otherwise: false, outcome: 'within', text: 'Go to step 6.', target: 'Check 6', notices: [] },
    { condition: '', otherwise: true, text: 'Stop and call the works office.', notices: [] },
  ],
};
const shut = {
  kind: 'step',
  label: '5',
  fullLabel: 'Check 5',
  text: 'Switch the main isolator off.',
  notices: [],
  entry: { kind: 'tick' },
  requiredState: 'Required: main isolator off and locked.',
};
const feel = {
  kind: 'step',
  label: '6',
  fullLabel: 'Check 6',
  text: 'Feel the axle.',
  notices: [],
  entry: { kind: 'verdict', measurement: 'feel', pass: 'no grit', fail: 'grit' },
};
const checklist = {
  format: 'handsclear-checklist/1',
  document: { number: 'FX-100', title: 'Open the mixer', revision: 'A', date: '2026-01-15', publisher: 'Test Works', language: 'en' },
  contentHash: '0123456789abcdef'.repeat(4),
  model: 'DM-10',
  machines: ['DM-10'],
  draft: false,
  cautions: ['Site lockout rules, local codes and licensed practice come first.'],
  tools: [{ name: 'feeler gauge', detail: '0.05 to 2 mm' }],
  consumables: [],
  parts: [],
  protection: [{ name: 'work gloves' }],
  sections: [{ title: 'Check', id: 'check', aside: false, items: [warning, step, { kind: 'text', text: 'Leave it so.' }, shut, feel] }],
};

type Json = Record<string, unknown>;
const refused = (change: (copy: Json) => void): readonly string[] => {
  const copy = structuredClone(checklist) as Json;
  change(copy);
  return violationsOf('checklist', copy).map(({ path, keyword }) => `${path.join('/')} ${keyword}`);
};
const items = (copy: Json): Json[] => ((copy.sections as Json[])[0] as Json).items as Json[];

test('a checklist in good order', () => {
  expect(violationsOf('checklist', checklist)).toEqual([]);
});

describe('refused', () => {
  test.each<[what: string, change: (copy: Json) => void]>([
    ['another version', (copy) => Object.assign(copy, { format: 'handsclear-checklist/2' })],
    ['a draft without its line', (copy) => Object.assign(copy, { draft: true })],
    ['a draft line on what is no draft', (copy) => Object.assign(copy, { draftLine: 'DRAFT: NOT FOR FIELD USE' })],
    ['another draft line', (copy) => Object.assign(copy, { draft: true, draftLine: 'draft' })],
    ['no cautions', (copy) => Object.assign(copy, { cautions: [] })],
    ['a tool list that was not said', (copy) => delete copy.tools],
    ['a hash that is none', (copy) => Object.assign(copy, { contentHash: 'abc' })],
    ['a step whose notices were dropped', (copy) => delete items(copy)[1]?.notices],
    ['a notice without its words', (copy) => Object.assign(items(copy)[0] as Json, { text: '' })],
    ['a step without an entry', (copy) => delete items(copy)[1]?.entry],
    [
      'a limit as a number that may lose digits',
      (copy) => Object.assign(((items(copy)[1] as Json).entry as Json).limits as Json[], [{ lower: 0.5, text: '0.5' }]),
    ],
    ['a field that is not one', (copy) => Object.assign(copy, { colour: 'red' })],
    ['no section', (copy) => Object.assign(copy, { sections: [] })],
  ])('%s', (_, change) => {
    expect(refused(change)).not.toEqual([]);
  });
});

test('a draft that says so', () => {
  expect(refused((copy) => Object.assign(copy, { draft: true, draftLine: 'DRAFT: NOT FOR FIELD USE' }))).toEqual([]);
});
