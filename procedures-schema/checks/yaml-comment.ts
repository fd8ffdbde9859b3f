/** A `#` after text in a list of names takes the rest of the name away. */
import { formCheck } from './form.ts';

export const yamlComment = formCheck(
  {
    id: 'yaml-comment',
    severity: 'warning',
    question: 'Was a # in a list of names meant as part of the name?',
    why: 'YAML reads everything after " #" as a comment, so the size of the tool is lost without a word.',
    source: 'format rule F11; YAML 1.2, 6.6',
    cases: [
      { name: 'the size of a screwdriver', finds: 1, front: 'tools:\n  - screwdriver #2' },
      { name: 'the same in quotes', finds: 0, front: 'tools:\n  - "screwdriver #2"' },
      { name: 'a comment on a line of its own', finds: 0, front: '# reviewed in spring\ntools: none' },
    ],
  },
  ['yaml-comment'],
);
