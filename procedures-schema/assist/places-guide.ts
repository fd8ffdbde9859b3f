/** Named places of a bound guide: its number, its models, the documents it lists, and models and numbers in its words. */
import { eachProse, type LibraryFacts } from '../checks/index.ts';
import { foldText, type Guide, proseSpan } from '../format/index.ts';
import { foldWords, spellingsOf } from '../registers/index.ts';
import type { Named } from './model.ts';
import type { NamedPlace } from './places.ts';
import { yamlVisits } from './places-yaml.ts';

export function guidePlaces(tree: Guide, library: LibraryFacts): readonly NamedPlace[] {
  const models = spellingsOf(library.registers.models);
  const numbers = new Set(library.procedures.map(({ head }) => head.id));
  const named = (text: string): Named | undefined => {
    const name = models.get(foldText(text));
    if (name !== undefined) return { kind: 'thing', thing: 'model', name };
    const number = text.trim();
    return number !== '' && numbers.has(number) ? { kind: 'document', number } : undefined;
  };
  const front = yamlVisits(tree.front?.root, tree.source.text).flatMap((visit): NamedPlace[] => {
    const { path, key, scalar, flow } = visit;
    if (key) return [];
    const own: Named | undefined =
      path[0] === 'id' ? { kind: 'document', number: scalar.text.trim() } : path[0] === 'models' ? named(scalar.text) : undefined;
    return own ? [{ named: own, span: scalar.span, role: path[0] === 'id' ? 'definition' : 'field', how: flow ? 'flow' : 'yaml' }] : [];
  });
  const body: NamedPlace[] = [];
  for (const prose of eachProse([...tree.foreword, ...tree.parts.flatMap(({ blocks }) => blocks)]))
    for (const { at, end } of foldWords(prose.text)) {
      const own = named(prose.text.slice(at, end));
      const bracket = prose.marks.some((mark) => mark.kind === 'reference' && mark.at <= at && end <= mark.end);
      if (own) body.push({ named: own, span: proseSpan(prose, at, end), role: bracket ? 'reference' : 'mention', how: 'prose' });
    }
  return [...front, ...body];
}
