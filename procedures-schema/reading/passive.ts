/** "The valve must be closed and locked": an order said passively, turned into verb phrases on its subject. */
import type { Item } from './items.ts';
import type { Tables, VerbForm } from './tables.ts';

export function passiveOf(
  main: readonly Item[],
  tables: Tables,
): readonly { readonly form: VerbForm; readonly items: readonly Item[] }[] | undefined {
  const word = (index: number): string => (main[index]?.kind === 'word' ? (main[index] as { word: string }).word : '');
  const modal = main.findIndex(
    (_, index) =>
      ['must', 'shall', 'should'].includes(word(index)) ||
      (['has', 'have', 'is', 'are', 'needs', 'need'].includes(word(index)) && word(index + 1) === 'to'),
  );
  if (modal < 1) return undefined;
  let at = modal + 1;
  if (word(at) === 'to') at += 1;
  while (/ly$/.test(word(at)) || word(at) === 'then' || word(at) === 'always') at += 1;
  if (word(at) !== 'be') return undefined;
  at += 1;
  while (/ly$/.test(word(at))) at += 1;
  const subject = main.slice(0, modal);
  const out: { form: VerbForm; items: Item[] }[] = [];
  for (let index = at; index < main.length; ) {
    const form = tables.verbs.get(word(index))?.find((one) => one.form === 'past') ?? participleIsBase(word(index), tables);
    const item = main[index] as Item;
    if (!form) break;
    // Tail of this participle: particles, prepositions, amounts, up to the next participle.
    let end = index + 1;
    while (
      end < main.length &&
      !(
        isJoint(main[end] as Item) &&
        tables.verbs.get(word(end + 1))?.some((one) => one.form === 'past' || participleIsBase(word(end + 1), tables))
      )
    )
      end += 1;
    const tail = main.slice(index + 1, end);
    const particle = tail[0]?.kind === 'word' && Object.hasOwn(form.verb.senses, tail[0].word) ? [tail[0]] : [];
    out.push({ form, items: [{ ...item } as Item, ...particle, ...subject, ...tail.slice(particle.length)] });
    index = end + 1;
  }
  return out.length > 0 ? out : undefined;
}

/** "Shut", "put", "set": participle and base are one word. */
function participleIsBase(word: string, tables: Tables): VerbForm | undefined {
  return ['shut', 'put', 'set', 'cut', 'read'].includes(word) ? tables.verbs.get(word)?.find((form) => form.form === 'base') : undefined;
}

function isJoint(item: Item): boolean {
  return (item.kind === 'word' && (item.word === 'and' || item.word === 'then')) || (item.kind === 'mark' && item.word === ',');
}
