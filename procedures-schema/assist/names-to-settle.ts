/** Names that no register knows, with a guess at what each may be (F15). Writing one down is register-name.ts. */
import { bareReferences, eachProse, eachSentence, endingIn, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { foldText, positionAt, proseSpan } from '../format/index.ts';
import type { Family, ThingKind } from '../registers/index.ts';
import type { KindGuess, NameToSettle } from './model.ts';

export function namesToSettle(facts: ProcedureFacts, families: readonly Family[]): readonly NameToSettle[] {
  const out: NameToSettle[] = [];
  const said = new Set<number>();
  const titles = new Set(facts.tree.sections.map((section) => foldText(section.title)));
  const add = (name: string, span: Span, inBrackets: boolean, before: string): void => {
    if (said.has(span.start)) return;
    said.add(span.start);
    out.push({
      name,
      span,
      line: positionAt(facts.source, span.start).line,
      inBrackets,
      nearest: [...facts.names.nearest(name), ...endingIn(facts.names, name)].slice(0, 3),
      guesses: guessesFor(name, before, families),
    });
  };
  const blocks = [...facts.tree.preface, ...facts.tree.sections.flatMap((section) => section.blocks)];
  for (const prose of eachProse(blocks))
    for (const mark of prose.marks) {
      if (mark.kind !== 'reference' || mark.form.kind !== 'name') continue;
      const { name } = mark.form;
      if (titles.has(foldText(name)) || /^section\s/i.test(name) || facts.names.lookup(name).length > 0) continue;
      add(name, mark.span, true, prose.text.slice(0, mark.at));
    }
  for (const { sentence, prose } of eachSentence(facts.read)) {
    const bare = sentence.unknown.length === 0 ? [] : bareReferences(facts, { sentence, prose });
    for (const { text, at, end } of sentence.unknown) {
      if (bare.some((one) => one.at < end && at < one.end)) continue;
      if (prose.marks.some((mark) => mark.kind === 'reference' && mark.at < end && at < mark.end)) continue;
      const whole = withItsWords(prose.text, at, end, facts.names);
      const [from, to] = whole ?? [at, end];
      add(whole ? prose.text.slice(from, to) : text, proseSpan(prose, from, to), false, prose.text.slice(0, from));
    }
  }
  return out.sort((a, b) => a.span.start - b.span.start);
}

/**
 * A slip in one word of a longer name: of "jaw lner" only "lner" is unknown, because there is a jaw as well, and what was meant is the jaw liner. Undefined:
 * no registered name of several words is near what stands there.
 */
function withItsWords(text: string, at: number, end: number, names: ProcedureFacts['names']): readonly [number, number] | undefined {
  const before = [...(/(?:[\p{L}\d-]+ ){1,2}$/u.exec(text.slice(0, at))?.[0].matchAll(/[\p{L}\d-]+ /gu) ?? [])].map(([word]) => word);
  const after = /^ [\p{L}\d-]+/u.exec(text.slice(end))?.[0] ?? '';
  const starts = before.map((_, index) => at - before.slice(index).join('').length);
  for (const [from, to] of [...starts, at].flatMap((own) => [[own, end + after.length] as const, [own, end] as const])) {
    if (from === at && to === end) continue;
    const kept = [text.slice(from, at), text.slice(end, to)].flatMap((one) => foldText(one).split(' ')).filter((word) => word !== '');
    // The words around it belong to the name: without them the slip alone is looked at.
    const near = names.nearest(text.slice(from, to)).some((name) => {
      const own = foldText(name).split(' ');
      return own.length === kept.length + foldText(text.slice(at, end)).split(' ').length && kept.every((word) => own.includes(word));
    });
    if (kept.length > 0 && near) return [from, to];
  }
  return undefined;
}

/** Last words of names of the trade, and what things so named mostly are. Common practice, no source. */
const HEADS: readonly (readonly [RegExp, ThingKind])[] = [
  [/\b(?:isolator|disconnect|breaker|shut-?off valve|stop valve|plug)$/, 'point'],
  [/\b(?:valve|drain|bleed|prop|props|pin|pins|strut|chock|chocks)$/, 'point'],
  [/\b(?:button|pedal|lever|switch|selector|knob|dial)$/, 'control'],
  [/\b(?:cover|guard|panel|door|lid|gate|skirt|hood)s?$/, 'cover'],
  [/\b(?:screw|bolt|nut|locknut|stud|clip|circlip|clamp)s?$/, 'fastener'],
  [/\b(?:gauge|indicator lamp|pilot lamp|mark|pointer)$/, 'gauge'],
  [
    /\b(?:wrench|spanner|screwdriver|pliers|puller|key set|key|hammer|meter|caliper|micrometer|rule|indicator|tester|thermometer|scraper|wedge)s?$/,
    'tool',
  ],
  [/\b(?:gloves|glasses|shoes|defenders|helmet|goggles|visor|respirator)$/, 'tool'],
  [/\b(?:grease|oil|cleaner|degreaser|sealant|compound|paste|spray|cloth|cloths|solvent|lubricant)$/, 'consumable'],
  [/\b(?:kit|spare [a-z ]+|set)$/, 'replacement'],
  [/\b(?:bay|zone|pit|chamber|casing)$/, 'zone'],
];

const FILES: Partial<Readonly<Record<ThingKind, string>>> = {
  tool: 'registers/tools.yaml',
  consumable: 'registers/consumables.yaml',
  replacement: 'registers/parts.yaml',
  document: 'registers/documents.yaml',
};

const WORDS: Partial<Readonly<Record<ThingKind, string>>> = {
  point: 'an isolation point, relief valve or restraint',
  control: 'a control',
  cover: 'a cover',
  zone: 'a zone',
  part: 'a part',
  fastener: 'fasteners',
  gauge: 'a gauge on the machine',
  tool: 'a tool',
  consumable: 'a consumable',
  replacement: 'a replacement part',
  document: 'a document from elsewhere',
};

/** Order in which the kinds are offered where nothing speaks for one. */
const ORDER: readonly ThingKind[] = [
  'part',
  'tool',
  'fastener',
  'cover',
  'gauge',
  'control',
  'consumable',
  'replacement',
  'zone',
  'document',
  'point',
];

function guessesFor(name: string, before: string, families: readonly Family[]): readonly KindGuess[] {
  const folded = foldText(name);
  const likely: ThingKind[] = [];
  // "with the ..." names an instrument.
  if (/\b(?:with|using)(?: (?:a|an|the|your))?\s*$/i.test(before)) likely.push('tool');
  if (/^[A-Z]{1,6}[-/]?\d{2,}/.test(name)) likely.push('document');
  for (const [pattern, kind] of HEADS) if (pattern.test(folded)) likely.push(kind);
  const kinds = [...new Set([...likely, ...ORDER])];
  return kinds.flatMap((kind): KindGuess[] => {
    const words = WORDS[kind] ?? kind;
    const file = FILES[kind];
    if (file !== undefined) return [{ kind, words, file }];
    return families.map((family) => ({ kind, words: `${words} of the ${family.name}`, family: family.name, file: family.origin.file }));
  });
}
