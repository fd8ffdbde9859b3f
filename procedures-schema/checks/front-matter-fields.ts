/** Front matter of procedures and guides against its schema. */
import type { LibraryCheck } from './check.ts';
import { isBroken } from './form.ts';

export const frontMatterFields: LibraryCheck = {
  id: 'front-matter-fields',
  scope: 'library',
  severity: 'error',
  question: 'Is the front matter complete, and is every field one that is read?',
  why: 'Number, revision, models and tools stand on the first page. "None needed" must be said: an empty list and a forgotten one look alike.',
  source: 'the JSON Schemas in procedures-schema/schemas; IEC/IEEE 82079-1 (from memory): identification, version, target group',
  cases: [
    { name: 'a misspelt field', finds: 1, front: 'tolls: none' },
    { name: 'no revision', finds: 1, front: '-revision' },
    { name: 'complete', finds: 0 },
  ],
  *run(library) {
    const files = [...library.procedures, ...library.guides];
    for (const { file, problems, schemaProblems } of files) {
      // What seems to be missing may stand behind the slip; that one is told.
      if (isBroken(problems)) continue;
      for (const { span, message, actual, expected } of schemaProblems)
        yield { file, span, message, ...(actual === undefined ? {} : { actual }), ...(expected === undefined ? {} : { expected }) };
    }
  },
};
