/** Guides: parts, and bullets of document numbers. */
import { formCheck } from './form.ts';

export const guideForm = formCheck(
  {
    id: 'guide-form',
    severity: 'error',
    question: 'Does the guide list its procedures by document number under a heading?',
    why: 'What a guide does not list is not bound into it.',
    source: 'format rule F13',
    cases: [
      {
        name: 'a bullet that is no document number',
        finds: 1,
        files: {
          'guides/FX-500.md':
            '---\nid: FX-500\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\n---\n\n## Opening\n\n- [FX-100]\n- the opening procedure\n',
        },
      },
      {
        name: 'a bullet in good form',
        finds: 0,
        files: {
          'guides/FX-500.md': '---\nid: FX-500\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\n---\n\n## Opening\n\n- [FX-100]\n',
        },
      },
    ],
  },
  ['guide-form'],
);
