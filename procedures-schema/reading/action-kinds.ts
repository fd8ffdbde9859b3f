/** Every kind of action a sentence can be read as. What each does to the state is flow/effects/; which words say it, the lexicon. */
export const ACTION_KINDS = [
  // making safe
  'shut-down', // normal stop by the machine's own control
  'isolate', // an isolation point goes to its safe position
  'lock',
  'tag', // put on
  'relieve', // a relief point goes to safe, or a source said to be bled, drained, discharged by a registered point
  'restrain', // a restraint goes in
  'try-out', // a control is tried to show nothing moves
  'prove', // a gauge or meter is read to show nothing is there
  'control', // a control is put to a position (return to off, mode)
  // making live
  'unlock',
  'untag', // taken off
  'restore', // an isolation point leaves its safe position
  'unrelieve', // a relief point leaves its safe position
  'release', // a restraint is taken out
  'start', // a control starts the machine
  'test-run', // run called a test by the words
  'make-energy', // jack up, hoist, charge, pump up
  // hands on
  'open', // cover opened or removed, part taken out or disconnected
  'close', // cover refitted, part put back or connected
  'renew', // old out and new in, by one verb
  'loosen',
  'tighten',
  'adjust', // a part moved, a setting changed by hand
  'clean',
  'apply', // a consumable put on or in
  'move', // a part moved to a named position, lifted, turned by hand
  'handle', // any other contact verb on a thing
  'measure', // a declared measurement or a thing with a contact instrument
  'sense', // look, listen, feel: pass or fail; `contact` says which
  'observe', // read a display, watch; never contact
  'put-in',
  'take-out', // temporary things
  'use', // a tool is named
  // people
  'tell',
  'clear-people',
  'take-tools',
  'stand-clear',
  'protect', // put on protective equipment
  // time and order
  'wait',
  'go-to',
  'repeat',
  'reverse',
  'call',
  'continue-with',
  'refer',
  'stop-and-call',
  'end',
  'record', // write a value down
  'out-of-service',
] as const;

export type ActionKind = (typeof ACTION_KINDS)[number];

/** A hand at work on a registered thing, tool or no tool; reading a value and putting temporary things in come besides where they count. */
export const HANDS_AT_WORK = [
  'open',
  'close',
  'renew',
  'loosen',
  'tighten',
  'adjust',
  'clean',
  'apply',
  'move',
  'handle',
] as const satisfies readonly (typeof ACTION_KINDS)[number][];
