/** English ways of saying that are known as a whole. */
import type { Sayings } from '../lexicon.ts';

export const SAYINGS: Sayings = {
  // 29 CFR 1910.147(e)(2)(i); check, ensure, verify and confirm establish nothing (rule 20).
  clears: new RegExp(
    '^(?:see|make (?:sure|certain))(?: to it)?(?: that)? (?:' +
      '(?:everyone|everybody|all people|all persons|people|all staff|the operators?)(?: else)? (?:is|are|stands?|stays?|keeps?|has (?:moved|gone|stepped)|have (?:moved|gone|stepped))(?: well)? (?:clear|away|back|out of the way)\\b' +
      '|(?:nobody|no one|no-one|no person)(?: else)? (?:is|are|stands?|remains?|stays?) (?:near|at|in|on|under|within|close|inside|behind|around|by)\\b' +
      ')',
  ),
  withPeopleClear:
    /^with (?:(?:everyone|everybody|(?:all )?(?:the )?people|all persons|all staff)(?: well)? (?:clear|away|back|out of the way)|(?:nobody|no one|no-one) (?:near|at|in|on|under|by|close))\b/i,
  nobody: /^(?:nobody|no one|no-one|people|everyone|everybody)(?: is| are)? (?:near|clear|away|back|at the \w+|close)\b/i,
  testLabel:
    /^(?:(?:leak|function|functional|interlock|continuity|pressure|running|trial|final|tightness) test|(?:test|trial) run)(?: (?:of|with) [^:]*)?$/i,
  staysStill:
    /\b(?:must|may|should|shall) not (?:move|turn|start|run|light|rise|sink|lift|go|react|respond|operate)\b|\bnothing (?:must|may|should|shall|can) (?:move|turn|start|run|light|happen)\b|\bmust (?:stay|remain) (?:still|where it is|at rest|off)\b|^no (?:movement|start|motion)\b/i,
  itMustShow:
    /^(?:it|they|each|both|all(?: of them)?|the (?:reading|needle|pointer|display)s?) (?:must|should|shall|has to|have to) (?:\w+ )?(?:be|show|read|indicate|stand|have fallen|point)\b/i,
  whichMustShow: /\bwhich (?:must|should|shall|has to|have to) (?:\w+ )?(?:be|show|read|indicate|stand|point)\b.*$/i,
  toolsAway: /^(?:all )?(?:the |your )?tools (?:away|out|off)$/,
  peopleAway: /^(?:all )?(?:the )?(?:people|everyone|everybody) (?:away|clear|back)$/,
};
