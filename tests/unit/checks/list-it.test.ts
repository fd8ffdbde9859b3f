/** What steps use and the front matter does not list is listed by one click, whatever form the list has, and nothing else changes. */
import { describe, expect, test } from 'vitest';
import { checkLibrary, type Finding } from '../../../procedures-schema/index.ts';
import { expandCase } from '../../support/cases.ts';

const WORK =
  '#. Renew the [scraper] with the [scraper blade kit], clean it with [degreaser] and tighten the [scraper bolts] with the [torque wrench].';
const FX = 'procedures/FX-100.md';
const LISTS = /^(tool|part|consumable)-not-listed$|^protection-listed$/;

function afterFixes(front: string, ends: '\n' | '\r\n' = '\n') {
  const { files } = expandCase({ name: '', finds: 0, front, work: WORK });
  let texts = files.map(({ path, text }) => ({ path, text: text.replaceAll('\n', ends) }));
  const found = (): readonly Finding[] => checkLibrary(texts).findings.filter(({ check }) => LISTS.test(check));
  const told = found().map(({ check }) => check);
  // One after the other, as somebody clicks them.
  for (let fix = found()[0]?.fix; fix; fix = found()[0]?.fix) {
    const { edits } = fix;
    texts = texts.map((one) => ({
      path: one.path,
      text: edits
        .filter(({ file }) => file === one.path)
        .reduceRight((text, { start, end, text: own }) => text.slice(0, start) + own + text.slice(end), one.text),
    }));
  }
  const text = texts.find(({ path }) => path === FX)?.text ?? '';
  return { told, left: found().length, front: text.slice(text.indexOf('tools:'), text.indexOf(`${ends}---`)) };
}

describe('listing what is used', () => {
  test('where nothing is listed, and where a new procedure says none', () => {
    const { told, left, front } = afterFixes('');
    expect(new Set(told)).toEqual(new Set(['tool-not-listed', 'part-not-listed', 'consumable-not-listed', 'protection-listed']));
    expect(left).toBe(0);
    expect(front).toBe(
      'tools:\n  - torque wrench\nconsumables:\n  - degreaser\nparts:\n  - scraper blade kit\nprotection:\n  - work gloves',
    );
  });

  test('below what is listed, with remarks and fields left as they are', () => {
    const tools = 'tools:\n    - 13 mm wrench # the long one\n    - name: feeler gauge\n      models: [DM-10]';
    const { left, front } = afterFixes(`${tools}\nparts:\n - other kit`);
    expect(left).toBe(0);
    expect(front).toContain(`${tools}\n    - torque wrench\n`);
    expect(front).toContain('parts:\n - other kit\n - scraper blade kit\n');
  });

  test('in brackets', () => {
    const { left, front } = afterFixes('tools: [13 mm wrench]\nprotection: [ ear defenders ]');
    expect(left).toBe(0);
    expect(front).toContain('tools: [13 mm wrench, torque wrench]\n');
    expect(front).toContain('protection: [ ear defenders, work gloves ]');
  });

  test('with the line ends of the file', () => {
    const { left, front } = afterFixes('tools:\n  - 13 mm wrench', '\r\n');
    expect(left).toBe(0);
    expect(front).toContain('tools:\r\n  - 13 mm wrench\r\n  - torque wrench\r\nconsumables:\r\n  - degreaser\r\n');
    expect(front.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  test('no list, no click: a field that is not there or is something else is for the writer', () => {
    for (const front of ['-tools', 'tools: "none"', 'tools: []']) expect(afterFixes(front).left, front).toBeGreaterThan(0);
  });
});
