/** Pairs of words a line must not part: a number and its unit, the ends of a range, "Fig." and its number, "step" and its label. Leaves breaking to lines.ts. */

/** Units after a number; the sign forms of the trade, not a register. */
const units = new Set(
  (
    'mm cm m km in ft yd µm μm mil mg g kg t lb lbs oz N kN N·m N⋅m N.m Nm kN·m lbf lbf·ft lbf·in ft·lbf Pa kPa MPa bar mbar psi kV V mV A mA Ω kΩ MΩ ohm ohms W kW VA kVA ' +
    'Hz kHz MHz s ms min h °C °F K % l L ml mL l/min L/min gal qt pt rpm r/min 1/min m/s m/min mm/s ft/min dB dB(A) J kJ hp lx mm² cm² m² mm³ cm³ m³ in² ft² AWG V~ VAC VDC V AC V DC ' +
    'hours hour minutes minute seconds second days day turns turn people person ' +
    'Stunden Stunde Minuten Minute Sekunden Sekunde Tage Tag Umdrehungen Umdrehung Personen Person U/min'
  ).split(' '),
);

/** Words that point at the number or letter after them. */
const pointers = new Set([
  'fig.',
  'figs.',
  'figure',
  'figures',
  'table',
  'tables',
  'step',
  'steps',
  'page',
  'pages',
  'section',
  'no.',
  'nos.',
  'rev',
  'revision',
  'item',
  'items',
  'size',
  'abb.',
  'bild',
  'bilder',
  'tabelle',
  'tabellen',
  'schritt',
  'schritte',
  'schritten',
  'seite',
  'seiten',
  'abschnitt',
  'abschnitte',
  'nr.',
  'größe',
]);

/** Between the ends of a range. */
const between = new Set(['to', 'bis']);

const number = /^[(±+\-−–≈<>≤≥]*\d[\d.,\u202f/⁄¼½¾⅛⅜⅝⅞–−-]*$/u;
const label = /^\(?(?:\d+[a-z]?|[A-Z]|[a-z]|[ivxlc]+)[).,;:]*$/u;
const edges = /^[("'“‘„‚[]+|[)\]"'”’“‘.,;:!?]+$/gu;

/** Pure memory of `mayHold`: a book says the same words over and over. */
const known = new Map<string, boolean>();

/** False where no word at all is tied to this one on its left, as most are not. */
export function mayHold(left: string): boolean {
  let may = known.get(left);
  if (may === undefined) {
    may = number.test(left) || between.has(left) || left === '×' || left === 'x' || /^M\d/u.test(left) || pointers.has(pointing(left));
    if (known.size > 20_000) known.clear();
    known.set(left, may);
  }
  return may;
}

const pointing = (left: string): string => left.toLowerCase().replace(/^[("'“‘„‚[]+/u, '');

/** True when the space between the two words is to hold. */
export function tied(left: string, right: string): boolean {
  const bare = right.replace(edges, '');
  if (number.test(left) && (units.has(right) || units.has(bare) || bare === '×' || bare === 'x')) return true;
  // A range in pieces is read as its first number.
  if (number.test(left) && between.has(right)) return true;
  if (between.has(left) && number.test(bare)) return true;
  // A telephone number.
  if (/^\d{3,}$/.test(left) && /^\d{3,}$/.test(bare)) return true;
  if ((left === '×' || left === 'x') && number.test(bare)) return true;
  if (/^M\d/u.test(left) && (bare === '×' || bare === 'x')) return true;
  return pointers.has(pointing(left)) && label.test(right);
}
