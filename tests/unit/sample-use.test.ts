/** The sample library shows the whole of the format at work: nothing in the table printed here is nought. */
import { expect, test } from 'vitest';
import { sample } from '../support/sample.ts';
import { usesOf, useTable } from '../support/sample-use.ts';

test('every action, condition, block, reference, energy and rule is used', async () => {
  const uses = usesOf((await sample()).report);
  console.log(useTable(uses));
  expect(uses.filter(({ count }) => count === 0).map(({ group, name }) => `${group} ${name}`)).toEqual([]);
});
