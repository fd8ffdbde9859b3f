/** The look-up form of a name (F1): what two spellings of one name have in common. Never used for what is printed. */

const PLAIN: Readonly<Record<string, string>> = {
  '\u2018': "'",
  '\u2019': "'",
  '\u201a': "'",
  '\u2032': "'",
  '\u201c': '"',
  '\u201d': '"',
  '\u201e': '"',
  '\u2033': '"',
  '\u2010': '-',
  '\u2011': '-',
  '\u00ad': '',
  '\u200b': '',
  '\u200c': '',
  '\u200d': '',
  '\u2060': '',
  '\ufeff': '',
};

const ODD = new RegExp(Object.keys(PLAIN).join('|'), 'g');

/** Plain words with single blanks between them: nothing to fold but the case. */
const PLAIN_WORDS = /^[!-~]+(?: [!-~]+)*$/;

export function foldText(text: string): string {
  if (PLAIN_WORDS.test(text)) return text.toLowerCase();
  return text
    .normalize('NFC')
    .replace(ODD, (c) => PLAIN[c] ?? c)
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}
