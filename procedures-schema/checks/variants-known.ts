/** Models, options and symptoms named in front matter exist in the registers. */
import { nearestNames } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';

export const variantsKnown: ProcedureCheck = {
  id: 'variants-known',
  scope: 'procedure',
  severity: 'error',
  question: 'Are the models, options and symptoms of the front matter registered?',
  why: 'A procedure is proved for the machines it is for. An unknown model is no machine, and nothing is proved for it.',
  source: 'design rule: variants come from the registers; IEC/IEEE 82079-1 (from memory): product identification',
  cases: [
    { name: 'a model that is not registered', finds: 1, front: 'models: [DM-10, DM-200]\n                ^^^^^^' },
    { name: 'a symptom that is not registered', finds: 1, front: 'symptoms: [drum squeaks]' },
    { name: 'registered models', finds: 0 },
  ],
  *run({ file, head }, { registers }) {
    const kinds = [
      { word: 'Model', listed: head.models, known: registers.models.map((model) => model.name) },
      { word: 'Option', listed: head.options, known: registers.options.flatMap((option) => [option.name, ...option.aliases]) },
      { word: 'Symptom', listed: head.symptoms, known: registers.symptoms.flatMap((symptom) => [symptom.name, ...symptom.aliases]) },
    ];
    for (const { word, listed, known } of kinds) {
      const folded = new Set(known.map((name) => name.toLowerCase()));
      for (const { name, span } of listed) {
        if (folded.has(name.toLowerCase()) || name === 'none') continue;
        const [nearest] = nearestNames(name, known, 1);
        yield {
          file,
          span,
          message: `${word} ${name} is not in the registers.`,
          actual: name,
          expected: nearest ?? `a name from registers/${word === 'Symptom' ? 'symptoms' : 'equipment'}.yaml`,
          ...(nearest ? { fix: { title: `Write ${nearest}`, edits: [{ file, start: span.start, end: span.end, text: nearest }] } } : {}),
        };
      }
    }
  },
};
