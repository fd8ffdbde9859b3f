/** What the words claim about models against the models the procedure is for. */
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { allProseOf } from './visit.ts';

const ALL = /\b(?:all|every|any) (?:models?|machines?|versions?|sizes?)\b(?! (?:listed|named|above|in this))/gi;

export const claimsTrue: ProcedureCheck = {
  id: 'claims-true',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does "all models" in the text hold for the models the procedure lists?',
  why: 'A page that says it is for all models is used on all models.',
  source: 'IEC/IEEE 82079-1 (from memory): product identification, correctness',
  cases: [
    {
      name: 'all, but one is missing',
      finds: 1,
      front: 'models: [DM-10]',
      body: '## When to use\n\nUse this on all models.\n            ^^^^^^^^^^\n\n@SAFE\n## Close up\n\n#. Stop and call the works office.\n',
    },
    {
      name: 'all are listed',
      finds: 0,
      body: '## When to use\n\nUse this on all models.\n\n@SAFE\n## Close up\n\n#. Stop and call the works office.\n',
    },
  ],
  *run({ file, head, tree }, { registers }) {
    const families = new Set(
      registers.models.filter((model) => head.models.some(({ name }) => name === model.name)).map((model) => model.family),
    );
    const absent = registers.models.filter((model) => families.has(model.family) && !head.models.some(({ name }) => name === model.name));
    if (absent.length === 0) return;
    for (const prose of allProseOf(tree))
      for (const found of prose.text.matchAll(ALL))
        yield {
          file,
          span: proseSpan(prose, found.index, found.index + found[0].length),
          message: `"${found[0]}" is said here, and the procedure is not for ${absent.map((model) => model.name).join(', ')}.`,
          actual: `for ${head.models.map(({ name }) => name).join(', ')}`,
          expected: 'the models by name, or the missing ones in the front matter',
        };
  },
};
