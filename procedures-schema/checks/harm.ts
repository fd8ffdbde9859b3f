/**
 * Words of harm and what they grade to, for notices. Data only; the checks decide.
 * Signal words by outcome: reference "safety notices" 1 (a sign maker quoting ANSI Z535; an instrument maker's manual). The word lists are
 * our own reading of those grades, common practice, no source.
 */

/** Death or serious injury. */
export const GRAVE =
  /\b(?:kill\w*|die[sd]?|death\w*|fatal\w*|deadly|electrocut\w*|amputat\w*|sever(?:s|ed)?|crush(?:es|ed|ing)?|crushed|scald\w*|asphyxiat\w*|suffocat\w*|explo(?:de|des|sion)\w*|drown\w*|blind(?:s|ed|ness)?|serious(?:ly)? (?:injur|hurt|burn)\w*|broken bones?|tear (?:off|out)|drag(?:s|ged)? (?:you|a hand|in)|high voltage|electric shock|lethal)\b/i;
/** Minor or moderate injury. */
export const LIGHT =
  /\b(?:cut(?:s|ting)?|pinch\w*|bruis\w*|burn(?:s|ed|t)?|graze\w*|scratch\w*|irritat\w*|slip(?:s|ped)?|trip(?:s|ped)?|strain\w*|sting\w*|nip(?:s|ped)?|trap(?:s|ped)?|injur\w*|hurt\w*|sharp|hot surface)\b/i;
/** Any word of injury to people. */
export const INJURY = new RegExp(`(?:${GRAVE.source})|(?:${LIGHT.source})`, 'i');
/** Damage to things. */
export const DAMAGE =
  /\b(?:damag\w*|wear(?:s|ing)? out|worn|ruin\w*|leak\w*|corrod\w*|rust\w*|crack\w*|distort\w*|stain\w*|void\w*|overheat\w*|seize\w*|fail(?:s|ure)?|misread|lost|loose)\b/i;
/** Names what is dangerous: a verb or thing of energy. */
export const HAZARD =
  /\b(?:turn(?:s|ing)?|start(?:s|ing)?|move(?:s|d|ing)?|fall(?:s|ing)?|drop(?:s|ped|ping)?|swing(?:s|ing)?|spin(?:s|ning)?|rotat\w*|sharp|hot|steam|pressur\w*|voltage|live|charged?|energy|spring(?:s|ed)?|fluid|oil|gas|acid|vapou?r|dust|heavy|weigh\w*|load(?:ed)?|edge|nip|roller|blade|knife|fan|chain|belt|slip\w*|noise|stored|close[sd]?|jump(?:s|ed)?|release[sd]?|run(?:s|ning)?|spray(?:s|ed)?|squirt\w*|burst\w*|torque|tighten\w*|grease|mix\w*|wrong|too (?:high|low|much|little|long|short|tight))\b/i;
/** Will: the outcome is certain. */
export const CERTAIN = /\bwill\b/i;
/** Can, could, may: the outcome is possible. */
export const POSSIBLE = /\b(?:can|could|may|might)\b/i;
/** Says how to avoid it: an order or a prohibition at the start of a sentence or after a comma, colon or semicolon. */
export const AVOID =
  /(?:^|[.:;!]\s+|,\s+(?:so|and)\s+|\band\s+)(?:[A-Z][a-z-]+ly,?\s+)?(?:do not|never|always|keep|stay|stand|wear|set|put|use|lock|switch|shut|close|open|wait|hold|lift|let|make|clean|wipe|fit|support|block|place|take|move|check|read|relieve|vent|drain|release|isolate|disconnect|remove|replace|renew|tighten|loosen|leave|allow|avoid|work|touch|cover|catch|ask|read|turn|lower|raise|swing|pin|follow|only|apply|mark|measure|note|count|guide|two people|have|send|tell|try|prove|press|pull|push|return|store|handle|protect|unplug|discharge|earth|ground|fill|grip|secure|stop|start|cap|plug|reach|step|walk|bring|carry|go|pass|refit|reset|test|refill|collect|dispose|rinse|wash|seek|call|hang|tie|clamp|bolt|screw|insert|slide|feed|limit|give|get|look|listen|be)\b/i;
