/**
 * British and American spelling of one word, by lists and rules: the dictionary that there is knows the American one alone. Whether a spelling that
 * comes out is a word at all is the dictionary's to say, so that a rule never makes a slip right. The families of words are those of common English
 * usage, from memory, no source; -ize is written on both sides, so that it is never called wrong.
 */

/** Whether the dictionary has a word, American spelling. */
type Has = (word: string) => boolean;

export type EnglishSpelling = 'british' | 'american' | 'both';

/** "en-GB", "en-US"; other countries, and none, may write both. */
export function spellingOf(language: string): EnglishSpelling {
  const [, country = ''] = /^en-(?:[a-z]{4}-)?([a-z]{2})\b/i.exec(language) ?? [];
  const code = country.toUpperCase();
  return code === 'US' ? 'american' : code === 'GB' || code === 'IE' ? 'british' : 'both';
}

// ---------------------------------------------------------------- lists

const OUR =
  'arb ard arm behavi cand clam col demean endeav fav ferv flav harb hon hum lab neighb od parl ranc rig rum sav splend succ tum val vap vig'.split(
    ' ',
  );
/** What may follow the ending; "laboratory" and "honorary" have none of these, and are written so on both sides. */
const AFTER_OUR = '(?:s|ed|ing|ful|fully|less|able|ably|ite|ites|ed|y|er|ers|hood|hoods|ings|like)?';

const RE =
  'calib|cent|epicent|fib|goit|lit|millilit|centilit|decilit|lust|meag|mit|och|reconnoit|sab|scept|sept|somb|spect|theat|amphitheat|tit'.split(
    '|',
  );
/** "centre", "centres", "centred", "centring". */
const CENTRE = [
  ['re', 'er'],
  ['res', 'ers'],
  ['red', 'ered'],
  ['ring', 'ering'],
] as const;
/** Metres, whatever they are counted in; a meter that shows something is one on both sides. */
const METRES = /^((?:kilo|centi|milli|micro|nano|deci|deca|hecto)?met)re(s?)$/;

/**
 * Beginnings that differ, British first, and what may follow them. `both`: the American form is a British word too, such as "tire" and "story".
 */
const PAIRS: readonly (readonly [british: string, american: string, after?: string, both?: 'both'])[] = [
  ['grey', 'gray'],
  ['mould', 'mold', '(?:s|ed|ing|ings|y|er|ers|able|board|boards)?'],
  ['smoulder', 'smolder'],
  ['plough', 'plow'],
  ['tyre', 'tire', '(?:s|d|less)?', 'both'],
  ['kerb', 'curb', '(?:s|stone|stones|side)?', 'both'],
  ['aluminium', 'aluminum', '(?:s)?'],
  ['sulph', 'sulf'],
  ['programme', 'program', '(?:s)?', 'both'],
  ['draught', 'draft', '.*', 'both'],
  ['storey', 'story', '(?:s)?', 'both'],
  ['storeys', 'stories', '', 'both'],
  ['cheque', 'check', '(?:s|book|books)?', 'both'],
  ['licence', 'license', '(?:s)?', 'both'],
  ['practis', 'practic', '(?:e|es|ed|ing)', 'both'],
  ['defence', 'defense', '(?:s|less)?'],
  ['offence', 'offense', '(?:s)?'],
  ['pretence', 'pretense', '(?:s)?'],
  ['judgement', 'judgment'],
  ['acknowledgement', 'acknowledgment'],
  ['ageing', 'aging', ''],
  ['fulfil', 'fulfill', '(?:s|ment)?'],
  ['instalment', 'installment'],
  ['enrol', 'enroll', '(?:s|ment)?'],
  ['skilful', 'skillful'],
  ['wilful', 'willful'],
  ['manoeuvr', 'maneuver', '(?:ed|ing)'],
  ['manoeuvre', 'maneuver', '(?:s|d)?'],
  ['manoeuvrab', 'maneuverab'],
  ['carburettor', 'carburetor'],
  ['sceptic', 'skeptic'],
  ['jewellery', 'jewelry', ''],
  ['marvellous', 'marvelous'],
  ['woollen', 'woolen'],
  ['catalogue', 'catalog', '(?:s|d)?'],
  ['axe', 'ax', ''],
  ['cosy', 'cozy', ''],
  ['moult', 'molt', '(?:s|ed|ing)?'],
  ['aeroplane', 'airplane'],
  ['artefact', 'artifact'],
  ['enquir', 'inquir', '(?:e|es|ed|ing|y|ies)'],
  ['learnt', 'learned', '', 'both'],
  ['spelt', 'spelled', '', 'both'],
  ['leant', 'leaned', '', 'both'],
  ['sizeable', 'sizable', ''],
];

/** Stems with two vowels before the l, which the rule below leaves alone. */
const DOUBLED = 'dial duel fuel refuel trial'.split(' ');
/** Words of -ise that no z makes another spelling of. */
const NEVER_Z = /^(?:s|pr|se|caps|ass|ma|res|outs|downs|overs|unders)is(?:e|ed|es|ing|er)$/;

// ---------------------------------------------------------------- British to American

/** Whether it is a word in British spelling, as far as lists and dictionary go. Letters in any case. */
export function isBritish(word: string, has: Has): boolean {
  const lower = word.toLowerCase();
  return listed(lower, 0).some(has) || ruled(lower, has);
}

/** By list: the other spelling of a word; `from` says which side it is written on, 0 British. */
function listed(word: string, from: 0 | 1): readonly string[] {
  const out: string[] = [];
  const [our, or] = from === 0 ? ['our', 'or'] : ['or', 'our'];
  const stem = new RegExp(`^(dis|mis|un|multi)?(${OUR.join('|')})${our}(${AFTER_OUR})$`).exec(word);
  if (stem) out.push(`${stem[1] ?? ''}${stem[2]}${or}${stem[3]}`);
  for (const ends of CENTRE) {
    const [own, other] = [ends[from], ends[1 - from] as string];
    const before = word.slice(0, -own.length);
    if (word.endsWith(own) && RE.includes(before)) out.push(before + other);
  }
  for (const pair of PAIRS) {
    const [own, other] = [pair[from], pair[1 - from] as string];
    const rest = word.startsWith(own) ? word.slice(own.length) : undefined;
    if (rest !== undefined && new RegExp(`^(?:${pair[2] ?? '.*'})$`).test(rest)) out.push(other + rest);
  }
  return out;
}

/** By rule: -ise, -lyse, metres, and the l that is doubled before an ending. */
function ruled(word: string, has: Has): boolean {
  const metre = METRES.exec(word);
  if (metre) return has(`${metre[1]}er${metre[2]}`);
  if (/is(?:e|es|ed|ing|er|ers|ation|ations|able)$/.test(word) && !NEVER_Z.test(word))
    return has(word.replace(/is((?:e|es|ed|ing|er|ers|ation|ations|able))$/, 'iz$1'));
  if (/lys(?:e|es|ed|ing|er|ers)$/.test(word)) return has(word.replace(/lys(?=\w+$)/, 'lyz'));
  const doubled = /^(\w+l)l(ed|ing|er|ers|ery|or|ors|ings|able)$/.exec(word);
  if (!doubled) return false;
  const [, stem = '', ending = ''] = doubled;
  // "label" has an l of its own and a vowel before the last one; "fail" and "rule" do not double it anywhere.
  const fits = DOUBLED.includes(stem) || /[aeiouy][^aeiou]+[aeiou]l$/.test(stem);
  return fits && has(stem) && (has(stem + ending) || /^(?:able|ings|er|ers)$/.test(ending));
}

// ---------------------------------------------------------------- American to British

/** The British spelling of a word that only Americans write so; undefined: it is written so in Britain too, as far as is known here. */
export function britishOf(word: string, has: Has): string | undefined {
  const lower = word.toLowerCase();
  if (!has(lower)) return undefined;
  const other = listedAmerican(lower) ?? ruledAmerican(lower, has);
  return other === undefined ? undefined : inCase(word, other);
}

function listedAmerican(word: string): string | undefined {
  const both = PAIRS.some(([, american, , kind]) => kind === 'both' && word.startsWith(american));
  if (both) return undefined;
  return listed(word, 1).find((one) => one !== word);
}

function ruledAmerican(word: string, has: Has): string | undefined {
  if (/lyz(?:e|es|ed|ing|er|ers)$/.test(word)) return word.replace(/lyz(?=\w+$)/, 'lys');
  const metre = /^((?:kilo|centi|milli|micro|nano|deci|deca|hecto)met)er(s?)$/.exec(word);
  // A micrometer measures.
  if (metre && metre[1] !== 'micromet') return `${metre[1]}re${metre[2]}`;
  const single = /^(\w+l)(ed|ing)$/.exec(word);
  if (!single) return undefined;
  const [, stem = '', ending = ''] = single;
  const fits = DOUBLED.includes(stem) || /[aeiouy][^aeiou]+[aeiou]l$/.test(stem);
  // "paralleled" is written with one on both sides.
  return fits && has(stem) && !stem.endsWith('ll') && stem !== 'parallel' ? `${stem}l${ending}` : undefined;
}

const inCase = (as: string, word: string): string =>
  as === as.toUpperCase()
    ? word.toUpperCase()
    : as.charAt(0) === as.charAt(0).toUpperCase()
      ? word.charAt(0).toUpperCase() + word.slice(1)
      : word;
