/**
 * No order is passed over in silence: whatever stands before it in its sentence, "... and remove the guard" is read, or the sentence is said to be unread.
 * Tried behind every sentence of the corpus and of the held-out set. Source of the sentences: common practice, no source.
 */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadSentences, readSentence, type SentenceFile } from '../../support/sentences.ts';

const files = ['corpus', 'heldout'].flatMap((folder) => loadSentences(join(import.meta.dirname, folder)));

/** A cover of the machine, by its name in the register. */
const coverOf = (file: SentenceFile): string => {
  const [, name = ''] = /\n {4}covers:\n {6}([^:\n]+):/.exec(file.registers['registers/equipment.yaml'] ?? '') ?? [];
  expect(name, file.equipment).not.toBe('');
  return name;
};

/** How an order can follow what was said before. */
const joints = [' and remove the ', ', then remove the ', ', and take off the ', '; then take off the '];

describe.each(files)('$equipment', (file) => {
  const cover = coverOf(file);

  test.each(joints)('"...%s" after every sentence', (joint) => {
    const lost = file.cases.flatMap((one): string[] => {
      const text = `${one.text.replace(/[.!]\s*$/, '')}${joint}${cover}.`;
      // A question asks for a sentence of its own.
      if (/\?/.test(one.text)) return [];
      const { sentences } = readSentence(file, { ...one, text, expect: [] });
      const last = sentences.at(-1);
      const read = sentences.some(({ actions }) =>
        actions.some(({ kind, things }) => kind === 'open' && things.some(({ thing }) => thing.name === cover)),
      );
      // "Do not do this and that" forbids both.
      const forbidden = last?.status === 'prohibition' && joint.includes('and');
      return read || last?.status === 'unread' || forbidden ? [] : [`${last?.status}: ${text}`];
    });
    expect(lost).toEqual([]);
  });
});
