/** An order where no step is: in a heading, in a cell of a table, in the words under a figure, or in a notice that makes the machine live. */
import { emptyProse, type Prose, proseSpan, type Section } from '../format/index.ts';
import { type ActionKind, english, opensWithOrder, readProse } from '../reading/index.ts';
import { Recent } from '../recent.ts';
import type { ProcedureCheck } from './check.ts';
import { HANDS_OR_LIVE, INSIDE } from './hands-or-live.ts';
import { paragraphContext } from './paragraph-context.ts';
import { eachBlock, eachNotice, eachSentence } from './visit.ts';

const LIVE: ReadonlySet<ActionKind> = new Set(['unlock', 'restore', 'unrelieve', 'release', 'start', 'test-run']);

/** A sentence by its place in its text, and what it has done. */
interface Order {
  readonly at: number;
  readonly end: number;
  readonly kinds: readonly ActionKind[];
  readonly things: readonly string[];
}

/** "Reach in and ...": no heading sends a body anywhere. */
const bodily = (word: string): boolean => english.beside.bodily.some((one) => one === word || one === `${word}ing`);

/** Of a hundred front matters: while a step is typed, tables and notices stand, and are not read again. */
const remembered = new Recent<string, Recent<string, readonly Order[]>>(100);

export const hiddenOrder: ProcedureCheck = {
  id: 'hidden-order',
  scope: 'procedure',
  severity: 'error',
  question: 'Is anything ordered in a heading, a table or under a figure, or made live by a notice, where no step is?',
  why: 'What is ordered outside the steps is done all the same, and nothing of it is in the proof.',
  source: 'semantics rules 19 and 20: notices change no state, and nothing is proved by silence',
  cases: [
    {
      name: 'a heading that orders what no step under it does',
      finds: 1,
      body: '## Clean the scraper, then make safe\n   ^^^^\n\n#. Read the [air gauge].\n\n@SAFE\n@CLOSE\n',
    },
    {
      name: 'a heading that names the work of its steps',
      finds: 0,
      body: '@SAFE\n## Clean the scraper\n\n#. Clean the [scraper].\n\n@CLOSE\n',
    },
    {
      name: 'an order in a table of the step',
      finds: 1,
      work: '#. Read the [air gauge].\n\n   | task | with |\n   |---|---|\n   | Clean the scraper | cloth |\n     ^^^^^^^^^^^^^^^^^\n',
    },
    {
      name: 'a table of values',
      finds: 0,
      work: '#. Read the [air gauge].\n\n   | thing | where |\n   |---|---|\n   | scraper | in the drum |\n',
    },
    {
      name: 'a notice that has the machine started',
      finds: 1,
      work: ':::caution\nThe drum sticks and can pinch your hand. Press the [start button] while you pull.\n                                         ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'a notice that forbids it',
      finds: 0,
      work: ':::caution\nThe drum turns and can pinch your hand. Do not press the [start button] while hands are in the drum.\n:::\n\n#. Clean the [scraper].',
    },
  ],
  *run({ file, tree, names, head, read }, { registers }) {
    const context = paragraphContext({ names, head }, registers);
    // The version says all that the context holds.
    const known = remembered.get(names.version) ?? new Recent<string, readonly Order[]>(400);
    remembered.set(names.version, known);
    const found = (prose: Prose, kinds: ReadonlySet<ActionKind>): Order | undefined => {
      // A number, a unit, the name of a thing: an order has two words at least.
      if (!/\S\s+\S/.test(prose.text)) return undefined;
      const key = `${prose.text}${JSON.stringify(prose.marks)}`;
      let orders = known.get(key);
      if (orders === undefined) {
        orders = readProse(prose, context).sentences.map(({ at, end, actions }) => ({
          at,
          end,
          kinds: actions.map(({ kind }) => kind),
          things: actions.flatMap(({ things }) => things.map(({ thing }) => thing.name)),
        }));
        known.set(key, orders);
      }
      return orders.find((one) => one.kinds.some((kind) => kinds.has(kind)));
    };
    /** What a heading names that opens like an order and could not be read. */
    const unreadIn = (prose: Prose): Pick<Order, 'things'> => {
      const said = readProse(prose, context).sentences.filter(({ status }) => status === 'unread');
      return { things: said.flatMap(({ mentions }) => mentions.flatMap(({ thing }) => (INSIDE.has(thing.kind) ? [thing.name] : []))) };
    };
    /** What the steps of a section name; what is done elsewhere for them, nobody can say from here. */
    const namedIn = (section: Section): ReadonlySet<string> | 'calls' => {
      const own = eachSentence(read).filter(({ step }) => step.section === section);
      if (own.some(({ sentence }) => sentence.actions.some(({ kind }) => kind === 'call'))) return 'calls';
      const renewed = new Map(registers.replacements.map((one) => [one.name, one.renews]));
      return new Set(
        own.flatMap(({ sentence: { actions, mentions } }) =>
          [...mentions, ...actions.flatMap(({ things }) => things)].flatMap(({ thing }) => [thing.name, renewed.get(thing.name) ?? '']),
        ),
      );
    };
    const told = (prose: Prose, at: number, end: number, where: string, expected: string) => ({
      file,
      span: prose.segments.length > 0 ? proseSpan(prose, at, end) : prose.span,
      message: `"${prose.text.slice(at, end)}" is ordered in ${where}, and is no step: nothing of it is proved.`,
      actual: where,
      expected,
    });
    const sections = tree.sections.filter(({ prose }) => !prose);
    for (const section of sections) {
      const { title, titleSpan: span } = section;
      const prose = { ...emptyProse(span.start), span, text: title };
      const order = found(prose, HANDS_OR_LIVE) ?? (opensWithOrder(title) ? unreadIn(prose) : undefined);
      const done = namedIn(section);
      const undone = order !== undefined && done !== 'calls' && order.things.some((name) => !done.has(name));
      if (
        !undone &&
        !title
          .toLowerCase()
          .split(/[^a-z]+/)
          .some(bodily)
      )
        continue;
      yield {
        file,
        span,
        message: `The heading "${title}" orders something that no step under it does: nothing of it is proved.`,
        actual: 'a heading',
        expected: 'a numbered step that does it; the heading to name what its steps do',
      };
    }
    for (const { blocks } of sections) {
      for (const { rows } of eachBlock(blocks, 'table'))
        for (const { cells } of rows)
          for (const { prose } of cells) {
            const order = found(prose, HANDS_OR_LIVE);
            if (order) yield told(prose, order.at, order.end, 'a table', 'a numbered step; the table for values only');
          }
      for (const { alt, span } of eachBlock(blocks, 'figure')) {
        const prose: Prose = { ...emptyProse(span.start), span, text: alt };
        const order = found(prose, HANDS_OR_LIVE);
        if (order) yield told(prose, order.at, order.end, 'the words of a figure', 'a numbered step; under the figure what it shows');
      }
    }
    for (const { notice } of eachNotice(sections))
      for (const { prose } of eachBlock(notice.blocks, 'paragraph')) {
        const order = found(prose, LIVE);
        if (order)
          yield told(prose, order.at, order.end, 'a notice', 'a step that does it, where it is safe; the notice to keep away from it');
      }
  },
};
