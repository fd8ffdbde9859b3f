/** Units in spoken words back to their symbols, however they are said: "newton metres", "foot-pounds", "p s i". Data and one look-up. */
import { UNIT_SAYINGS } from './unit-sayings.ts';

/** Other ways the trade says a unit. Common practice, no source. Words parted by blanks, no hyphens. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  N·m: ['newton meter', 'newtons meters', 'n m', 'nm'],
  lbf·ft: ['foot pound', 'foot pounds', 'pound feet', 'pound foot', 'pounds feet', 'foot pounds force', 'lbf ft', 'ft lb', 'ft lbs'],
  lbf·in: ['inch pound', 'inch pounds', 'pound inch', 'pound inches', 'in lb', 'in lbs', 'lbf in'],
  psi: ['psi', 'p s i'],
  'r/min': ['rpm', 'r p m', 'revolution a minute', 'revolutions a minute', 'turns per minute'],
  '°C': ['celsius', 'degrees c', 'degree c', 'centigrade', 'degrees centigrade'],
  '°F': ['fahrenheit', 'degrees f', 'degree f'],
  A: ['amp', 'amps'],
  kg: ['kilo', 'kilos', 'k g'],
  mm: ['m m'],
  kPa: ['k p a', 'kpa'],
  MPa: ['m p a', 'mpa'],
  Ω: ['ohm', 'ohms'],
  kΩ: ['kilo ohm', 'kilo ohms'],
  MΩ: ['mega ohm', 'mega ohms', 'meg'],
  s: ['sec', 'secs'],
  min: ['min', 'mins'],
  h: ['hr', 'hrs'],
  '%': ['per cent'],
  turn: ['revolution', 'revolutions'],
  µm: ['micron', 'microns', 'micro meter', 'micro meters'],
  mil: ['thou'],
  dB: ['db', 'd b'],
  V: ['v'],
};
/** Several of these are no plain "s", or end in one. */
const ONE: Readonly<Record<string, string>> = { feet: 'foot', inches: 'inch', celsius: 'celsius', hertz: 'hertz', siemens: 'siemens' };
const LONGEST = 4;
const BY_WORDS = new Map<string, string>();
for (const [symbol, sayings] of Object.entries(UNIT_SAYINGS)) for (const saying of sayings) BY_WORDS.set(plain(saying), symbol);
for (const [symbol, sayings] of Object.entries(ALSO))
  for (const saying of sayings) if (!BY_WORDS.has(plain(saying))) BY_WORDS.set(plain(saying), symbol);

/** One and several, American and British alike, hyphens as blanks: "pounds-force feet" is "pound force foot". */
function plain(saying: string): string {
  return saying
    .toLowerCase()
    .split(/[ -]/)
    .map(
      (word) =>
        ONE[word] ??
        word
          .replace(/metre/, 'meter')
          .replace(/litre/, 'liter')
          .replace(/(?<=..[^s])s$/, ''),
    )
    .join(' ');
}

/** The unit that begins at word `at`, after a number: "of an inch" too. */
export function readUnit(words: readonly string[], at: number): { readonly symbol: string; readonly length: number } | undefined {
  const skipped = words[at] === 'of' && /^an?$/.test(words[at + 1] ?? '') ? 2 : /^an?$/.test(words[at] ?? '') ? 1 : 0;
  for (let length = LONGEST; length > 0; length -= 1) {
    const said = words.slice(at + skipped, at + skipped + length);
    if (said.length < length) continue;
    const symbol = BY_WORDS.get(plain(said.join(' ')));
    if (symbol !== undefined) return { symbol, length: length + skipped };
  }
  return undefined;
}
