import { expect, test } from 'vitest';
import { withChecks } from '../../cli/build/readme.ts';
import { readText } from './source.ts';

test('the list of checks in README.md is the checks', () => {
  const readme = readText('README.md');
  expect(readme, 'run: npm run readme').toBe(withChecks(readme));
});
