/** library.yaml and the registers against their schemas and against each other. */
import type { LibraryCheck } from './check.ts';
import { isBroken } from './form.ts';

export const registerFields: LibraryCheck = {
  id: 'register-fields',
  scope: 'library',
  severity: 'error',
  question: 'Do library.yaml and the registers say what their schemas ask, and do they agree with each other?',
  why: 'The proof is about the machine as the registers describe it. A source, cover or model that is not read is not protected.',
  source: 'the JSON Schemas in procedures-schema/schemas; 29 CFR 1910.147(d)(1): know the kind and size of the energy',
  cases: [
    {
      name: 'a field that does not exist',
      finds: 1,
      files: { 'registers/consumables.yaml': 'consumables:\n  bearing grease: {kind: lubricant, ammount: 5 g}\n' },
    },
    {
      name: 'a symptom of an unknown family',
      finds: 1,
      files: { 'registers/symptoms.yaml': 'symptoms:\n  drum scrapes: {family: drum mixxer, procedures: [FX-100]}\n' },
    },
    { name: 'registers in good order', finds: 0 },
  ],
  *run(library) {
    for (const { file, problems, schemaProblems } of library.registerFiles) {
      // What seems to be missing may stand behind the slip; that one is told.
      if (isBroken(problems)) continue;
      for (const { span, message, actual, expected } of schemaProblems)
        yield {
          file: file.source.path,
          span,
          message,
          ...(actual === undefined ? {} : { actual }),
          ...(expected === undefined ? {} : { expected }),
        };
    }
  },
};
