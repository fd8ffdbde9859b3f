/** Notices that never close or use a word that is no signal word. */
import { formCheck } from './form.ts';

export const noticeForm = formCheck(
  {
    id: 'notice-form',
    severity: 'error',
    question: 'Is every notice opened by a signal word and closed again?',
    why: 'An open notice swallows the steps after it; an unknown word is no warning to anybody.',
    source: 'format rule F8; ANSI Z535.6 signal words (from memory)',
    cases: [
      {
        name: 'a fence that never closes',
        finds: 1,
        work: ':::danger\nThe drum turns. It will crush your hand. Keep clear.\n\n#. Clean the [scraper].',
      },
      { name: 'a word that is none', finds: 1, work: ':::beware\nThe drum turns.\n:::\n\n#. Clean the [scraper].' },
      {
        name: 'a notice in good form',
        finds: 0,
        work: ':::caution\nThe edge is sharp. It can cut your hand. Wear [work gloves].\n:::\n\n#. Clean the [scraper].',
      },
    ],
  },
  ['notice-form'],
);
