/** Finds step references typed as plain text: "repeat steps 4 to 7", "see step C", "step 2 of Check". What they mean is resolve.ts. */
import { foldText, type Prose, type Section, startsWithQuantity } from '../format/index.ts';

/** One typed label. Offsets are of the prose's text. */
export interface TypedWord {
  readonly label: string;
  readonly at: number;
  readonly end: number;
}

export interface TypedWords {
  /** The words as a whole, "steps 4 to 7"; for later members of a list only the label. */
  readonly at: number;
  readonly end: number;
  readonly from: TypedWord;
  readonly to?: TypedWord;
  /** Named with "of" or "in". */
  readonly section?: Section;
}

const LABEL =
  '(?:\\d{1,3}(?:\\.\\d{1,3})*(?:\\.?[a-z]{1,2}(?![a-z])(?:\\.?\\d{1,2})?)?|[A-Z]{1,2}(?![A-Za-z])(?:\\.?\\d{1,2})?(?:\\.?[a-z](?![a-z]))?|[a-z](?![a-z]))';
const FIRST = new RegExp(`\\b(steps?)[ \\u00a0]+(${LABEL})(?![\\w°%/])`, 'gi');
const RANGE = new RegExp(
  `^(?:[ \\u00a0]*[-–—][ \\u00a0]*|[ \\u00a0]+(?:to|through|thru|until|up to)[ \\u00a0]+)(?:and including[ \\u00a0]+)?(?:steps?[ \\u00a0]+)?(${LABEL})(?![\\w°%/])`,
);
const MORE = new RegExp(
  `^(?:,[ \\u00a0]*(?:and[ \\u00a0]+|or[ \\u00a0]+)?|[ \\u00a0]+(?:and|or|&)[ \\u00a0]+)(?!steps?\\b)(${LABEL})(?![\\w°%/])`,
);

export function findTypedWords(prose: Prose, sections: readonly Section[]): readonly TypedWords[] {
  const text = prose.text;
  if (!/step/i.test(text)) return [];
  const out: TypedWords[] = [];
  FIRST.lastIndex = 0;
  for (let found = FIRST.exec(text); found; found = FIRST.exec(text)) {
    const label = found[2] ?? '';
    const at = found.index;
    const labelAt = at + found[0].length - label.length;
    if (marked(prose, at, labelAt + label.length) || !isLabel(label, text, labelAt)) continue;
    const plural = (found[1] ?? '').toLowerCase() === 'steps';
    const members = membersFrom(text, { label, at: labelAt, end: labelAt + label.length }, plural);
    const end = members.at(-1)?.end ?? labelAt + label.length;
    const section = sectionAfter(text, end, sections);
    members.forEach((member, n) => {
      out.push({ ...member, at: n === 0 ? at : member.at, ...(section ? { section } : {}) });
    });
    FIRST.lastIndex = end;
  }
  return out;
}

function membersFrom(text: string, first: TypedWord, plural: boolean): { at: number; end: number; from: TypedWord; to?: TypedWord }[] {
  const members: { at: number; end: number; from: TypedWord; to?: TypedWord }[] = [];
  let word: TypedWord | undefined = first;
  while (word) {
    const range: TypedWord | undefined = word === first || plural ? next(text, word.end, RANGE) : undefined;
    const end: number = range?.end ?? word.end;
    members.push({ at: word.at, end, from: word, ...(range ? { to: range } : {}) });
    word =
      plural || /\bsteps?[ \u00a0]+\S+[ \u00a0]+or[ \u00a0]/i.test(text.slice(Math.max(0, first.at - 6), end + 4))
        ? next(text, end, MORE)
        : undefined;
  }
  return members;
}

function next(text: string, from: number, pattern: RegExp): TypedWord | undefined {
  const found = pattern.exec(text.slice(from, from + 60));
  const label = found?.[1];
  if (!found || label === undefined) return undefined;
  const at = from + found[0].length - label.length;
  return isLabel(label, text, at) ? { label, at, end: at + label.length } : undefined;
}

/** "step 2 mm further" and "step a little back" name no step. */
function isLabel(label: string, text: string, at: number): boolean {
  if (/^\d/.test(label) && startsWithQuantity(text.slice(at))) return false;
  // "Step to the side": only capital letters count in two.
  if (/^[a-z]{2}$/.test(label)) return false;
  if (/^[a-z]$/.test(label))
    return /^(?:[.,;:!?)\]]|$|[ \u00a0](?:to|and|or|of|in|again|above|below|until|if|when|–|-)\b)/.test(text.slice(at + 1));
  return true;
}

function marked(prose: Prose, at: number, end: number): boolean {
  return prose.marks.some((mark) => (mark.kind === 'reference' || mark.kind === 'code') && mark.at < end && mark.end > at);
}

/** "of Check", "in section Check", "of the section Check": the longest title that stands there. */
function sectionAfter(text: string, end: number, sections: readonly Section[]): Section | undefined {
  const lead = /^,?[ \u00a0]+(?:of|in|under|from)[ \u00a0]+(?:the[ \u00a0]+)?(?:section[ \u00a0]+)?["'“”‘’]?/i.exec(text.slice(end));
  if (!lead) return undefined;
  const rest = foldText(text.slice(end + lead[0].length, end + lead[0].length + 200));
  let best: Section | undefined;
  let length = 0;
  for (const section of sections) {
    const title = foldText(section.title);
    if (title.length <= length || !rest.startsWith(title) || /^[\p{L}\p{N}]/u.test(rest.slice(title.length))) continue;
    best = section;
    length = title.length;
  }
  return best;
}
