/** Proofs that are told as a check, or as what a gauge must show: who follows the words reads the instrument. */
import type { Action, Sentence } from '../action.ts';
import { showsGone, showsLittle } from '../classify/index.ts';
import type { Item } from '../items.ts';
import { bare, type Reader, wordsOf } from './reader.ts';

export function confirms(reader: Reader, main: readonly Item[]): boolean {
  const word = (index: number): string => (main[index]?.kind === 'word' ? (main[index] as { word: string }).word : '');
  if (word(0) === 'make' && (word(1) === 'sure' || word(1) === 'certain')) return true;
  const form = reader.tables.verbs.get(word(0))?.find((one) => one.form === 'base');
  const sense = form?.verb.senses[''];
  if (sense === 'confirm') return true;
  return (
    (sense === 'check' || sense === 'prove') &&
    main.some((item, index) => index > 0 && item.kind === 'word' && ['that', 'whether', 'if'].includes(item.word))
  );
}

/** "Check with the multimeter that no voltage ...": a proof said as a check. */
export function provingCheck(reader: Reader, main: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Action | undefined {
  const that = main.findIndex((item) => item.kind === 'word' && item.word === 'that');
  const head = that < 0 ? main : main.slice(0, that);
  const tools = head.flatMap((item) =>
    item.kind === 'name' && item.things[0]?.kind === 'tool' ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
  );
  const meter = tools.filter((use) => /meter|tester|detector/.test(reader.equipment.tool(use.thing.name)?.kind ?? ''));
  const gauges = main
    .slice(Math.max(0, that))
    .flatMap((item) =>
      item.kind === 'name' && item.things[0]?.kind === 'gauge' ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
    );
  const proof = { ...bare('prove', base.at, base.end), result: text };
  if (gauges.length > 0 && /(?:^|\s)0(?:\s|$)|\bzero\b/i.test(text)) return { ...proof, things: gauges };
  if (meter.length === 0 || !/\b(?:no|zero|dead|0)\b/i.test(text)) return undefined;
  const things = main
    .slice(Math.max(0, that))
    .flatMap((item) =>
      item.kind === 'name' && item.things[0] && item.things[0].kind !== 'tool'
        ? [{ thing: item.things[0], at: item.at, end: item.end }]
        : [],
    );
  return { ...proof, things: things.filter((use) => use.thing.kind === 'source'), with: meter, contact: true };
}

/** "The gauge must show 0 bar": whoever follows it reads the gauge, or the instrument that is held there. */
export function shownProof(reader: Reader, said: readonly Item[], text: string): Action | undefined {
  const [first, last] = [said[0], said[said.length - 1]];
  const uses = said.flatMap((item) =>
    item.kind === 'name' && item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
  );
  const words = wordsOf(reader, said);
  const gauges = uses.filter(({ thing }) => thing.kind === 'gauge');
  const tools = uses.filter(({ thing }) => thing.kind === 'tool' && reader.equipment.tool(thing.name)?.contact);
  if (!first || !last || uses.length === 0) return undefined;
  const shows = /\bmust (?!not)(?:\w+ )?(?:show|read|indicate|stand at|fall to|drop to)\b/i.test(words);
  // "The wheels must stand still in the window."
  const still = /\bmust (?:stand|be|stay) (?:still|at rest)\b.*\b(?:in|at|on|behind)\b/i.test(words);
  const proof = { ...bare('prove', first.at, last.end), result: text };
  if (gauges.length === uses.length) return (shows && showsGone(words)) || still ? { ...proof, things: gauges } : undefined;
  const little = showsLittle(words) || /\b0(?![.\d])/.test(words);
  return tools.length === uses.length && shows && little ? { ...proof, with: tools, contact: true } : undefined;
}
