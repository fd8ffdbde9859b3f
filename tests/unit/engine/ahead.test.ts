/** What is said of the text at hand may come before what is said between files; in the end both are what one edit as a whole says. */
import { describe, expect, test } from 'vitest';
import { newEngine } from '../../../procedures-schema/index.ts';
import { sample } from '../../support/sample.ts';

const { texts } = await sample();
/** Of one machine, with all that is said between files. */
const files = texts.filter(({ path }) => !path.startsWith('procedures/') || path.includes('OM-31'));

describe('an edit whose findings between files come later', () => {
  const file = files.find(({ path }) => path.includes('OM-3140'))?.path ?? '';
  const text = files.find(({ path }) => path === file)?.text ?? '';
  // Another number, so that guides and symptoms lead nowhere; a lock that is not put on; and as it was.
  const edits = [text.replace('id: OM-3140', 'id: OM-3149'), text.replace(/^.*[Ll]ock.*\n/gm, ''), text];

  test('says of the procedures the same at once, and between files the same when asked', () => {
    const [whole, ahead] = [newEngine(), newEngine()];
    let before = whole.apply(files).between;
    ahead.apply(files);
    let others = 0;
    for (const edit of edits) {
      const changes = [{ path: file, text: edit }];
      const [one, two] = [whole.apply(changes), ahead.applyAhead(changes)];
      expect([...two.findings]).toEqual([...one.findings]);
      expect(two.between).toEqual(before);
      expect(ahead.due).toBe(true);
      expect(ahead.settle()).toEqual(one.between);
      expect(ahead.due).toBe(false);
      expect(ahead.known.visits.map(({ violations }) => violations.length)).toEqual(
        whole.known.visits.map(({ violations }) => violations.length),
      );
      if (JSON.stringify(before) !== JSON.stringify(one.between)) others += 1;
      before = one.between;
    }
    expect(others, 'edits that change what is said between files').toBeGreaterThan(1);
  });

  test('while procedures wait nothing is owed, because nothing is said between files', () => {
    const engine = newEngine();
    const later = files.map((one) => (one.path.startsWith('procedures/') && one.path !== file ? { ...one, later: true } : one));
    expect(engine.applyAhead(later)).toMatchObject({ between: [] });
    expect(engine.due).toBe(false);
  });
});
