/**
 * The bytes of the sample prints are those that were looked at last: SHA-256 of each, kept beside. Where a change of the pages is meant, look at
 * them, then run `HANDSCLEAR_HASHES=write npx vitest run tests/print/hashes.test.ts`. The same list is for other machines: another Node, a browser's worker.
 */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { sample } from '../support/sample.ts';
import { samplePrints } from '../support/sample-prints.ts';

const file = 'tests/print/hashes.json';

test('every sample print has the bytes that were last looked at', async () => {
  const { report, input, fonts } = await sample();
  const made = Object.fromEntries(
    samplePrints(report.facts, input, fonts).map(({ name, make }) => [name, createHash('sha256').update(make()).digest('hex')]),
  );
  if (process.env.HANDSCLEAR_HASHES === 'write') writeFileSync(file, `${JSON.stringify(made, undefined, 2)}\n`);
  expect(made).toEqual(JSON.parse(readFileSync(file, 'utf8')));
});
