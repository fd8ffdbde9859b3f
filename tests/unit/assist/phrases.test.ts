/** What completion writes is read as it was meant: every instruction that the registers of the sample make, read in a procedure of its family. */
import { describe, expect, test } from 'vitest';
import { marginOf } from '../../../procedures-schema/assist/index.ts';
import { instructionsFor, VERB } from '../../../procedures-schema/assist/instructions.ts';
import { otherPosition, pointPhrases } from '../../../procedures-schema/assist/phrases.ts';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { sample } from '../../support/sample.ts';

/** The sample's registers without its procedures: one at a time is read. */
async function bare() {
  const { report, texts } = await sample();
  return { report, registerTexts: texts.filter(({ path }) => !/^(?:procedures|guides)\//.test(path)) };
}

describe('instructions from the register', () => {
  test('are read, every one, and name no unknown thing', async () => {
    const { report, registerTexts } = await bare();
    const { registers } = report.facts;
    for (const family of registers.families) {
      const models = registers.models.filter((model) => model.family === family.name).map(({ name }) => name);
      const head = `---\nid: OM-9900\ntitle: Try\nmodels: [${models.join(', ')}]\n---\n\n## Try\n\n`;
      const empty = checkLibrary([...registerTexts, { path: 'procedures/OM-9900.md', text: head }]).facts;
      const facts = empty.procedures.find(({ head: own }) => own.id === 'OM-9900');
      const lines = instructionsFor(empty, facts).filter(({ detail }) => detail !== VERB);
      expect(lines.length).toBeGreaterThan(30);
      const text = `${head}${lines.map((line, n) => `${n + 1}. ${line.text}.`).join('\n')}\n`;
      const library = checkLibrary([...registerTexts, { path: 'procedures/OM-9900.md', text }]).facts;
      const own = library.procedures.find(({ head: one }) => one.id === 'OM-9900');
      if (!own) throw new Error('no procedure');
      const readings = marginOf(own, library).lines.flatMap((line) => line.readings);
      expect(
        readings.filter(({ status }) => status !== 'read').map((one) => `${one.text} ${one.why ?? one.status}`),
        family.name,
      ).toEqual([]);
    }
  });

  test('a point goes to its safe position, and off it again', async () => {
    const { report, registerTexts } = await bare();
    const { registers } = report.facts;
    const KINDS = { isolate: 'isolates', relieve: 'lets out', restrain: 'holds' } as const;
    const BACK = { isolate: 'switches in again', relieve: 'ends letting out', restrain: 'takes the hold off' } as const;
    for (const family of registers.families) {
      const models = registers.models.filter((model) => model.family === family.name).map(({ name }) => name);
      const wanted: string[] = [];
      const lines: string[] = [];
      for (const source of family.sources)
        for (const use of ['isolate', 'relieve', 'restrain'] as const)
          for (const { point: name, safe } of source[use]) {
            const point = family.points.find((one) => one.name === name);
            if (!point) continue;
            const phrase = (position: string | undefined) =>
              pointPhrases(point, family).find(
                ({ text }) =>
                  new RegExp(` ${position}(?: |$)|^(?:Shut|Open)`, 'i').test(text) && text.toLowerCase().includes(position ?? '?'),
              );
            const [to, back] = [phrase(safe), phrase(otherPosition(point, safe))];
            if (to) lines.push(to.text);
            if (to) wanted.push(KINDS[use]);
            if (back) lines.push(back.text);
            if (back) wanted.push(BACK[use]);
          }
      expect(lines.length, family.name).toBeGreaterThan(1);
      const text = `---\nid: OM-9900\ntitle: Try\nmodels: [${models.join(', ')}]\n---\n\n## Try\n\n${lines.map((line, n) => `${n + 1}. ${line}.`).join('\n')}\n`;
      const library = checkLibrary([...registerTexts, { path: 'procedures/OM-9900.md', text }]).facts;
      const own = library.procedures.find(({ head }) => head.id === 'OM-9900');
      if (!own) throw new Error('no procedure');
      const words = marginOf(own, library).lines.map((line) => line.readings.flatMap((one) => one.words).join('; '));
      words.forEach((said, n) => {
        expect(said.startsWith(wanted[n] ?? '?'), `${lines[n]}: ${said}, not ${wanted[n]}`).toBe(true);
      });
    }
  });
});
