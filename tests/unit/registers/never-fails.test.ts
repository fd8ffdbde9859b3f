/**
 * Whatever stands in a register or in front matter is read without an exception, and every problem points into the file.
 * Source: the project's own rule that reading never fails.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readProcedure, readYaml } from '../../../procedures-schema/format/index.ts';
import { machineOf, namesFor, readHead, readRegisters, variantsFor } from '../../../procedures-schema/registers/index.ts';
import { FIXTURE_REGISTERS } from '../../support/fixture.ts';

const FRONT = `id: FX-100
title: Open the mixer
revision: "A"
date: 2026-01-15
models: [DM-10, {name: DM-20, note: new}]
tools: none
measurements:
  gap: {quantity: length, limits: {DM-10: {lower: 1 mm, upper: 2 mm}, DM-20: {nominal: 2 mm, tolerance: 1 mm}}}
`;

/** One piece of a text cut out, doubled, or put in place of another: most mutants are still YAML, so the readers get far. */
const mutation = fc.record({
  at: fc.nat(10_000),
  length: fc.nat(12),
  put: fc.constantFrom(
    '',
    ':',
    '{',
    '}',
    '[',
    ']',
    ',',
    '\n',
    '  ',
    '- ',
    'kind',
    'null',
    '"',
    '\u0000',
    '\u00ad',
    '__proto__: 1',
    'constructor',
  ),
});

function mutated(text: string, { at, length, put }: { at: number; length: number; put: string }): string {
  const from = at % text.length;
  return text.slice(0, from) + put + text.slice(from + length);
}

test('mutants of registers and of front matter', () => {
  const paths = Object.keys(FIXTURE_REGISTERS);
  fc.assert(
    fc.property(
      fc.constantFrom(...paths),
      fc.array(mutation, { minLength: 1, maxLength: 4 }),
      fc.array(mutation, { maxLength: 3 }),
      (path, cuts, front) => {
        const trees = Object.entries(FIXTURE_REGISTERS).map(([file, text]) => {
          return readYaml(file, file === path ? cuts.reduce(mutated, text) : text).tree;
        });
        const { registers, problems } = readRegisters(trees);
        for (const [file, list] of problems) {
          const length = trees.find((tree) => tree.source.path === file)?.source.text.length ?? -1;
          for (const { span, message } of list) {
            expect(span.start).toBeGreaterThanOrEqual(0);
            expect(span.end).toBeGreaterThanOrEqual(span.start);
            expect(span.end).toBeLessThanOrEqual(length);
            expect(message).not.toMatch(/undefined|\[object/);
          }
        }
        const { tree } = readProcedure('procedures/p.md', `---\n${front.reduce(mutated, FRONT)}---\n\n## Work\n\n1. Wait.\n`);
        const { head, problems: told } = readHead(tree, registers);
        for (const { message } of told) expect(message).not.toMatch(/undefined|\[object/);
        for (const variant of variantsFor(head, registers)) machineOf(variant, registers);
        namesFor(head, tree, registers, new Map([['FX-100', 'x']])).lookup('side guard');
      },
    ),
    { numRuns: 400 },
  );
});
