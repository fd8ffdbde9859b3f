/** Checklists of the sample library against their schema, their own hash, and the guide they must agree with. */
import { beforeAll, describe, expect, test } from 'vitest';
import { eachNotice } from '../../procedures-schema/index.ts';
import { violationsOf } from '../../procedures-schema/schemas/index.ts';
import { canonical, contentHash } from '../../publishing/checklist/index.ts';
import { type Checklist, checklistOf, writeChecklist } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});
const each = (change: Partial<Sample['input']> = {}): Checklist[] =>
  it.report.facts.procedures
    .filter(({ machines }) => change.model === undefined || machines.some(({ variant }) => variant.model === change.model))
    .map((facts) => checklistOf(facts, { ...it.input, ...change }));

const notices = (text: string): number => text.split('"kind": "notice"').length - 1;

describe('checklists of the sample library', () => {
  test('every one keeps to the schema, whole, as a draft and for one model', () => {
    for (const made of [...each(), ...each({ draft: true }), ...each({ model: 'DL-20' })])
      expect(violationsOf('checklist', JSON.parse(writeChecklist(made))), made.document.number).toEqual([]);
  });

  test('a draft says so', () => {
    for (const made of each({ draft: true })) expect(made.draftLine).toBe('DRAFT: NOT FOR FIELD USE');
    for (const made of each()) expect(made.draftLine).toBeUndefined();
  });

  test('the hash is that of everything else, and changes with it', () => {
    for (const made of each()) {
      const { contentHash: hash, ...rest } = made;
      expect(contentHash(rest)).toBe(hash);
      expect(contentHash({ ...rest, draft: true })).not.toBe(hash);
    }
  });

  test('every step has its label, and every notice of the text is there', () => {
    it.report.facts.procedures.forEach((facts, index) => {
      const text = writeChecklist(each()[index] as Checklist);
      for (const { fullLabel } of facts.read.labels.steps) expect(text).toContain(`"fullLabel": ${JSON.stringify(fullLabel)}`);
      expect(notices(text), facts.head.id).toBe([...eachNotice(facts.tree.sections)].length);
    });
  });
});

describe('canonical JSON', () => {
  // FIPS 180-4, the hash of the one-block message "abc" is that of its bytes; here of the JSON string, from an independent implementation.
  test('SHA-256 agrees with the one of the platform', async () => {
    const bytes = new TextEncoder().encode(canonical({ b: [1, 'ä', null], a: true }));
    const own = Buffer.from(await crypto.subtle.digest('SHA-256', bytes)).toString('hex');
    expect(contentHash({ a: true, b: [1, 'ä', null] })).toBe(own);
  });
  test('the order of keys does not count', () => {
    expect(canonical({ b: 1, a: { d: undefined, c: [{}] } })).toBe('{"a":{"c":[{}]},"b":1}');
  });
});
