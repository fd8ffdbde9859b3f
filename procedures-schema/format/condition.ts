/** Whether a bullet starts with a condition (F6), and where the condition ends. What the condition says is reading's. */
import { sliceProse } from './prose.ts';
import type { Prose } from './tree.ts';

export interface SplitCondition {
  readonly condition: Prose;
  readonly otherwise: boolean;
  readonly lead: Prose;
  /** Neither comma nor colon after the condition: its end is not known. */
  readonly endless: boolean;
}

const OTHERWISE = /^(?:otherwise|or else|else|if not|in (?:all|any|every) other cases?)(?=[\s,:]|$)[,:]?\s*(?:then\s+)?/i;
/** Words that are dropped: what follows is the condition. "Unless" stays, it turns the meaning round. */
const OPENERS = /^(?:if|when|whenever|where|in case|in the case that)\s+/i;
const KEPT = /^(?:unless|as long as|until|once)\s+/i;
const LABELLED =
  /^(?:(?:for|on|with|without|models?|options?|serial numbers?|serials|variants?)\s[^.!?:]{1,100}|(?:not |too |still )?(?:within|inside|outside|in|out of|over|above|under|below|beyond|more than|less than|between|pass|passes|passed|fail|fails|failed|ok|okay|yes|no|good|bad|high|low|correct|incorrect|wrong|right|none|more|less)(?:\s[^.!?:]{0,80})?)\s?:(?=\s|$)\s*/i;

/** Finite verbs and pronoun subjects: a clause with neither goes on after its comma ("the pump, motor or fan is hot"). */
const VERB =
  /\b(?:is|are|was|were|be|been|has|have|had|do|does|did|can|cannot|could|will|would|must|may|might|should|isn't|aren't|doesn't|don't|won't|needs?|it|they|you|there|nothing|none)\b|n't\b/i;

export function startsWithCondition(prose: Prose): boolean {
  const text = prose.text;
  return OTHERWISE.test(text) || OPENERS.test(text) || KEPT.test(text) || LABELLED.test(text);
}

export function splitCondition(prose: Prose): SplitCondition {
  const text = prose.text;
  const otherwise = OTHERWISE.exec(text);
  if (otherwise) {
    return {
      condition: sliceProse(prose, 0, 0),
      otherwise: true,
      lead: sliceProse(prose, otherwise[0].length, text.length),
      endless: false,
    };
  }
  const from = OPENERS.exec(text)?.[0].length ?? 0;
  const end = from > 0 || KEPT.test(text) ? conditionEnd(prose, from) : labelEnd(text);
  if (end === undefined) {
    return {
      condition: sliceProse(prose, from, text.length),
      otherwise: false,
      lead: sliceProse(prose, text.length, text.length),
      endless: true,
    };
  }
  const then = /^[,:\s]*(?:then\s+)?/i.exec(text.slice(end))?.[0].length ?? 0;
  return {
    condition: sliceProse(prose, from, end),
    otherwise: false,
    lead: sliceProse(prose, end + then, text.length),
    endless: false,
  };
}

function labelEnd(text: string): number | undefined {
  const found = LABELLED.exec(text);
  return found ? found[0].trimEnd().length - 1 : undefined;
}

function conditionEnd(prose: Prose, from: number): number | undefined {
  const text = prose.text;
  const inMark = (at: number): boolean =>
    prose.marks.some((mark) => (mark.kind === 'reference' || mark.kind === 'code') && at >= mark.at && at < mark.end);
  const stop = /[.!?](?=\s|$)/.exec(text.slice(from));
  const limit = stop ? from + stop.index : text.length;
  const commas: number[] = [];
  for (let at = from; at < limit; at++) {
    const c = text[at];
    if ((c !== ',' && c !== ':') || inMark(at)) continue;
    const after = text[at + 1];
    if (after !== undefined && !/\s/.test(after)) continue; // 0,35 and 10:1
    if (c === ':') {
      if (commas.length === 0 || !VERB.test(text.slice(from, commas[0]))) return at;
      break;
    }
    commas.push(at);
  }
  for (const comma of commas) {
    if (VERB.test(text.slice(from, comma)) && !/^,\s(?:and|or|but)\s/i.test(text.slice(comma, comma + 6))) return comma;
  }
  // No verb we know before any comma: "the screws turn, ..." ends at the last one that no "and" or "or" follows in its clause.
  return commas.find((comma) => !/^[^,]*\b(?:or|and)\b[^,]*,/i.test(text.slice(comma + 1, limit))) ?? commas[0];
}
