/** Comments of YAML in front matter, against a heading that shows a forgotten fence. */
import { expect, test } from 'vitest';
import { readProcedure } from '../../../procedures-schema/index.ts';

const read = (text: string) => readProcedure('procedures/a.md', text);

test('a comment at the start of a line does not end the front matter', () => {
  const { tree, problems } = read('---\nid: OM-1\n# checked by the plant\ntitle: Clean\n---\n\n## Work\n1. Clean.\n');
  expect(problems.filter(({ rule }) => rule === 'front-matter')).toEqual([]);
  expect(tree.front?.root?.kind === 'map' && tree.front.root.entries.map(({ key }) => key.text)).toEqual(['id', 'title']);
});

test('the heading of a section still shows that the fence was forgotten', () => {
  const { tree, problems } = read('---\nid: OM-1\ntitle: Clean\n\n## Work\n1. Clean.\n\n---\n');
  expect(problems.map(({ message }) => message)).toContain('The front matter that starts here is never closed.');
  expect(tree.sections.map(({ title }) => title)).toEqual(['Work']);
});
