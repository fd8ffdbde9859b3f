/** Protective equipment that steps, notices and consumables ask for is listed. */
import type { Span } from '../finding.ts';
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { registeredName } from './inventory.ts';
import { listIt } from './list-it.ts';
import { eachSentence, proseOf } from './visit.ts';

export const protectionListed: ProcedureCheck = {
  id: 'protection-listed',
  scope: 'procedure',
  severity: 'error',
  question: 'Is all protective equipment that the work needs in the list of protection?',
  why: 'Gloves named on page three are in the van by then.',
  source: 'IEC/IEEE 82079-1 (from memory), completeness; consumables carry what their safety data asks for',
  cases: [
    { name: 'a cleaner that needs gloves', finds: 1, front: 'consumables: [degreaser]', work: '#. Clean the [scraper] with [degreaser].' },
    {
      name: 'gloves in a notice only',
      finds: 1,
      work: ':::caution\nThe edge is sharp. It can cut your hand. Wear [work gloves].\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'listed',
      finds: 0,
      front: 'consumables: [degreaser]\nprotection: [work gloves]',
      work: '#. Clean the [scraper] with [degreaser].',
    },
  ],
  *run(facts, { registers }) {
    const { file, head, names } = facts;
    const protective = new Set(registers.tools.filter((tool) => tool.protective).map((tool) => tool.name));
    const listed = new Set([...head.protection, ...head.tools].map(({ name }) => registeredName(facts, 'tool', name)));
    const needed = new Map<string, { span: Span; by: string }>();
    const need = (name: string, span: Span, by: string): void => {
      if (!listed.has(name) && !needed.has(name)) needed.set(name, { span, by });
    };
    for (const { sentence, prose } of eachSentence(facts.read))
      for (const { thing, at, end } of sentence.mentions) {
        const span = proseSpan(prose, at, end);
        if (thing.kind === 'tool' && protective.has(thing.name)) need(thing.name, span, 'this step');
        if (thing.kind === 'consumable')
          for (const name of registers.consumables.find((other) => other.name === thing.name)?.needs ?? [])
            need(name, span, `the ${thing.name}`);
      }
    for (const prose of proseOf(facts.tree))
      for (const mark of prose.marks) {
        if (mark.kind !== 'reference' || mark.form.kind !== 'name') continue;
        const thing = names.lookup(mark.form.name).find((found) => found.kind === 'tool' && protective.has(found.name));
        if (thing) need(thing.name, mark.span, 'this place');
      }
    for (const { name, span } of head.consumables)
      for (const needs of registers.consumables.find((other) => other.name === registeredName(facts, 'consumable', name))?.needs ?? [])
        need(needs, span, `the ${name}`);
    for (const [name, { span, by }] of needed)
      yield {
        file,
        span,
        message: `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${by} asks for it, and the front matter does not list it.`,
        actual: 'not listed',
        expected: `"${name}" under protection`,
        ...listIt(facts, 'protection', name),
      };
  },
};
