/** Braces after a step, heading or notice: known keys, one id each. */
import { formCheck } from './form.ts';

export const attributes = formCheck(
  {
    id: 'attributes',
    severity: 'error',
    question: 'Are the ids and attributes in braces known, well formed and unique?',
    why: 'A reference to an id that stands twice, or an attribute nobody reads, does something else than the writer meant.',
    source: 'format rule F4',
    cases: [
      { name: 'the same id on two steps', finds: 1, work: '#. {#clean} Clean the [scraper].\n#. {#clean} Read the [air gauge].' },
      { name: 'an unknown key', finds: 1, work: '#. Clean the [scraper]. {asides=yes}' },
      { name: 'an id of its own', finds: 0, work: '#. {#clean} Clean the [scraper].' },
    ],
  },
  ['attributes'],
);
