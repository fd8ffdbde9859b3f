/**
 * Cut in slices the proof says word for word what it says as a whole: over the example of every check, the sample library, and
 * the sample library with one step after another left out. Random procedures are compared in naive.test.ts.
 */
import { describe, expect, test } from 'vitest';
import { checks } from '../../procedures-schema/checks/index.ts';
import { checkLibrary, type FlowResult, type LibraryFacts, type ProcedureFacts, prove } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';
import { sample } from '../support/sample.ts';

/** What is told, in words and places, without the counts of states. */
function told(facts: LibraryFacts, { read, machines }: ProcedureFacts, whole: number | undefined): string {
  const { violations, verdicts, bands, unreached }: FlowResult = prove({
    procedure: read,
    machines,
    registers: facts.registers,
    others: (number) => facts.procedures.find((one) => one.read.head.id === number)?.read,
    ...(whole === undefined ? {} : { whole }),
  });
  const place = (at: { readonly file: string; readonly span: { readonly start: number } } | undefined): string =>
    at ? `${at.file}:${at.span.start}` : 'start';
  return [
    ...violations
      .map(
        (one) =>
          `${one.rule} ${one.thing} at ${place(one.at)} by ${place(one.cause)} on ${one.variants.join()} ${one.missing.join()} walk ${one.walk.length}, ${one.later} later`,
      )
      .sort(),
    ...verdicts.map(({ variant, verdict }) => `${variant} ${verdict}`),
    ...[...bands].map(([step, band]) => `${step.fullLabel} ${band}`).sort(),
    ...unreached.map(({ fullLabel }) => `${fullLabel} not reached`),
  ].join('\n');
}

function same(facts: LibraryFacts): number {
  for (const one of facts.procedures) expect(told(facts, one, 0), one.read.file).toBe(told(facts, one, undefined));
  return facts.procedures.length;
}

describe('in slices and as a whole', () => {
  test('the example of every check', () => {
    let count = 0;
    for (const check of checks)
      for (const example of check.cases) {
        const { files } = expandCase(example);
        count += same(
          checkLibrary(
            files,
            files.map((file) => file.path),
          ).facts,
        );
      }
    expect(count).toBeGreaterThan(250);
  });

  test('what a step asks of another thing is kept in every slice', () => {
    const work =
      '#. If the label is red, remove the [scraper].\n#. If the [scraper] is out, remove the [air hose].\n#. Refit the [scraper].';
    const { files } = expandCase({ name: 'asked of a part', finds: 0, work });
    const { facts } = checkLibrary(
      files,
      files.map((file) => file.path),
    );
    same(facts);
    expect(told(facts, facts.procedures[0] as ProcedureFacts, 0)).toContain('E-part air hose');
  });

  test('the sample library, whole and with one step after another left out', async () => {
    const { texts, paths } = await sample();
    const { facts } = checkLibrary(texts, paths);
    same(facts);
    let count = 0;
    for (const { read, ...rest } of facts.procedures) {
      // Every third step: each kind of step is left out somewhere.
      for (let at = 0; at < read.steps.length; at += 3) {
        const shorter = { ...rest, read: { ...read, steps: read.steps.toSpliced(at, 1) } };
        expect(told(facts, shorter, 0), `${read.file} without step ${at}`).toBe(told(facts, shorter, undefined));
        count += 1;
      }
    }
    expect(count).toBeGreaterThan(100);
  });
});
