/** Signs, short forms and runs of capitals as they are said. Data only; `spoken.ts` finds them in a text. */

/** Said where the sign stands between words or before a value. A blank is put round each. */
export const SIGNS: Readonly<Record<string, string>> = {
  '±': 'plus or minus',
  '×': 'by',
  '≥': 'at least',
  '≤': 'at most',
  '>=': 'at least',
  '<=': 'at most',
  '>': 'more than',
  '<': 'less than',
  '≈': 'about',
  '~': 'about',
  '=': 'equals',
  '+': 'plus',
  '&': 'and',
  '@': 'at',
  '→': 'to',
  '⌀': 'diameter',
  Ø: 'diameter',
  ø: 'diameter',
  '°': 'degrees',
  '%': 'percent',
  Ω: 'ohms',
  µ: 'micro',
  '²': 'squared',
  '³': 'cubed',
};

/** Short forms, compared without case; the full stop belongs to them. */
export const SHORT_FORMS: Readonly<Record<string, string>> = {
  'approx.': 'approximately',
  'assy.': 'assembly',
  'dia.': 'diameter',
  'e.g.': 'for example',
  'etc.': 'and so on',
  'fig.': 'figure',
  'figs.': 'figures',
  'i.e.': 'that is',
  'incl.': 'including',
  'max.': 'maximum',
  'min.': 'minimum',
  'no.': 'number',
  'nos.': 'numbers',
  'qty.': 'quantity',
  'ref.': 'reference',
  'rev.': 'revision',
  'temp.': 'temperature',
  'vs.': 'against',
  'w/': 'with',
  'w/o': 'without',
  'and/or': 'or',
};

/** Capitals that stand for words in service text. Common practice, no source. */
export const CAPITALS_SAID: Readonly<Record<string, string>> = {
  CCW: 'counterclockwise',
  CW: 'clockwise',
  'I/O': 'I O',
  LH: 'left-hand',
  RH: 'right-hand',
  TBD: 'to be decided',
};

/** Capitals said letter by letter. Others (STOP, OFF, a word in capitals) are read as words. */
export const SPELLED: ReadonlySet<string> = new Set(
  'AC API CE DC DIN EN GFCI HMI HV IEC ISO IP LCD LED LPG LV NPT OD PCB PE PLC PPE PTFE PVC RCD RFI SAE SDS UNC UNF UPS USB UV VFD'.split(
    ' ',
  ),
);

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;
