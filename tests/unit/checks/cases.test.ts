/** Runs the worked examples that every check carries: the text `explain` shows is the text that is tested. */
import { describe, expect, test } from 'vitest';
import { checks } from '../../../procedures-schema/checks/index.ts';
import { checkLibrary } from '../../../procedures-schema/pipeline.ts';
import { expandCase } from '../../support/cases.ts';

/** An example would need more states than anybody wants to read. */
const NO_EXAMPLE = ['proof-bounded'];

for (const check of checks)
  describe(check.id, () => {
    for (const example of check.cases)
      test(example.name, () => {
        const { files, carets, figures } = expandCase(example);
        const paths = files.map((file) => file.path);
        const own = (without?: string) =>
          checkLibrary(files, paths, { figures, ...(without === undefined ? {} : { without }) }).findings.filter(
            (finding) => finding.check === check.id,
          );
        const found = own();
        expect(found.map((finding) => `${finding.file}:${finding.range.start.line} ${finding.message}`)).toHaveLength(example.finds);
        for (const caret of carets)
          expect(found.map(({ file, range }) => ({ file, line: range.start.line, column: range.start.column }))).toContainEqual(caret);
        for (const finding of found) {
          expect(finding.message).not.toBe('');
          expect(finding.why).not.toBe('');
        }
        // Switched off, the example goes silent: it is this check and no other that speaks.
        if (example.finds > 0) expect(own(check.id)).toHaveLength(0);
      });

    test.skipIf(NO_EXAMPLE.includes(check.id))('is asked by at least one example', () => {
      expect(check.cases.some((example) => example.finds > 0)).toBe(true);
    });
  });
