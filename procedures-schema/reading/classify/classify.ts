/**
 * From a verb phrase to actions, by what its sense does to which kind of thing: the table of senses. Returns a reason where the words
 * do not decide: wrong is worse than unread. Knows senses and kinds, no word of any language but through the lexicon.
 */
import type { Equipment } from '../equipment.ts';
import type { Phrase } from '../phrase.ts';
import type { Tables } from '../tables.ts';
import { applyTo } from './applying.ts';
import { pressControl, setTo, startMachine, stopMachine, treadOn } from './controls.ts';
import { type Around, actionOf, byKind, type Classified, cannot, type Deed, deedOf, done } from './deed.ts';
import { fitThings, itsScrews, removeThings, renewThings } from './fitting.ts';
import { clearAway, goesOnDoing, handleThings, keepSo, putThings, weakVerb } from './handling.ts';
import { handOn } from './hands.ts';
import { locksNamed, lockThings, putLocks } from './locks.ts';
import { checkThings, measureThings, onlyNamed, proveWith, readGauge, seeGauge, senseThings } from './measuring.ts';
import { bleedAt, isolateAt, movePoints, restrainWith, switchedAt } from './points.ts';
import { atMost } from './showing.ts';
import { allTools, makeEnergyWith, makersAmong, putsToolsAway, temporaryTool, toolInUse } from './tools.ts';

export function classify(phrase: Phrase, around: Around, equipment: Equipment, tables: Tables): Classified {
  const ambiguous = phrase.ambiguous[0];
  if (ambiguous) return { why: `"${ambiguous.text}" leads to two things` };
  return actionsOf(deedOf(phrase, around, equipment, tables, actionsOf));
}

function actionsOf(deed: Deed): Classified {
  const { phrase } = deed;
  if (
    phrase.pronoun &&
    phrase.objects.length === 0 &&
    deed.around.it.length === 0 &&
    !(phrase.many && deed.around.them.length > 1) &&
    !['wait', 'continue', 'leave', 'keep', 'tell'].includes(phrase.sense) &&
    // "Stop it with the stop key": the control says what stops.
    !(['stop', 'off', 'start', 'on'].includes(phrase.sense) && deed.tools.some((use) => use.thing.kind === 'control'))
  )
    return { why: 'it is not clear what "it" stands for' };
  if (putsToolsAway(deed)) return { actions: [actionOf(deed, 'take-tools', [], { contact: false })] };
  if (locksNamed(deed)) {
    const locks = putLocks(deed);
    if (locks) return locks;
  }
  // "Pull the plug": out of its socket.
  if (phrase.base === 'pull' && deed.objects.length > 0 && deed.objects.every((use) => deed.equipment.isPlug(use.thing.name)))
    return movePoints(deed, ['out', 'unplugged', 'off']);
  // "Pull the fuse", "draw the pin": out, where the register says what that is.
  if (
    ['pull', 'draw'].includes(phrase.base) &&
    phrase.particle === '' &&
    deed.objects.length > 0 &&
    deed.objects.every((use) => use.thing.kind === 'point' && deed.equipment.move(use.thing.name, 'out') !== undefined)
  )
    return movePoints(deed, ['out']);
  const screws = itsScrews(deed);
  if (screws) return screws;
  switch (phrase.sense) {
    case 'off':
      return (
        switchedAt(deed) ??
        (deed.objects.some((use) => use.thing.kind === 'point') ? movePoints(deed, ['off', 'shut', 'unplugged']) : stopMachine(deed))
      );
    case 'on':
      return (
        switchedAt(deed) ??
        (deed.objects.some((use) => use.thing.kind === 'point') ? movePoints(deed, ['on', 'open', 'plugged in']) : startMachine(deed))
      );
    case 'stop':
      return stopMachine(deed);
    case 'start':
    case 'run':
      return startMachine(deed);
    case 'press':
    case 'operate':
    case 'try':
      return deed.objects.length === 0 && phrase.base === 'tread' ? treadOn(deed) : pressControl(deed);
    case 'let-go':
      return deed.objects.every((use) => use.thing.kind === 'control') && deed.objects.length > 0
        ? done(deed, 'control', deed.objects)
        : cannot(deed);
    case 'open':
      return byKind(deed, {
        tool: () => toolInUse(deed),
        point: () => movePoints(deed, ['open']),
        cover: () => done(deed, 'open', deed.objects),
      });
    case 'shut':
      return byKind(deed, {
        tool: () => toolInUse(deed),
        point: () => movePoints(deed, ['shut']),
        cover: () => done(deed, 'close', deed.objects),
      });
    case 'in':
      return byKind(deed, {
        point: () => movePoints(deed, ['in']),
        tool: () => temporaryTool(deed, 'put-in'),
        cover: () => done(deed, 'close', deed.objects),
        part: () => done(deed, 'close', deed.objects),
        replacement: () => done(deed, 'close', deed.objects),
      });
    case 'out':
      return byKind(deed, {
        point: () => movePoints(deed, ['out']),
        tool: () => temporaryTool(deed, 'take-out'),
        // "Swing the guard aside."
        cover: () => done(deed, 'open', deed.objects),
      });
    case 'unplug':
      return byKind(deed, { point: () => movePoints(deed, ['unplugged', 'off']), part: () => done(deed, 'open', deed.objects) });
    case 'plug-in':
      return byKind(deed, { point: () => movePoints(deed, ['plugged in', 'on', 'in']), part: () => done(deed, 'close', deed.objects) });
    case 'set':
    case 'turn':
      return setTo(deed);
    case 'see':
      return seeGauge(deed);
    case 'raise':
    case 'lower':
      // "Lift the deck plate", "lower the lid".
      if (deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'cover') && phrase.unknown.length === 0)
        return done(deed, phrase.sense === 'raise' ? 'open' : 'close', deed.objects);
      // "Put the lever down", where that is a position of it.
      if (deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'point') && phrase.places.length === 0)
        return movePoints(deed, [phrase.sense === 'raise' ? 'up' : 'down']);
      // "Put down the pan": a tool is laid ready.
      if (phrase.base === 'put' && deed.objects.every((use) => use.thing.kind === 'tool')) return temporaryTool(deed, 'put-in');
      if (deed.tools.some((use) => use.thing.kind === 'control')) return handOn(deed, 'move');
      return byKind(deed, {
        part: () => done(deed, 'move', deed.objects),
        machine: () => done(deed, 'move', deed.objects, { contact: false }),
        measurement: () => done(deed, 'adjust', deed.objects),
      });
    case 'isolate':
      return isolateAt(deed);
    case 'lock':
    case 'tag':
    case 'lock-and-tag':
      return lockThings(deed);
    case 'unlock':
    case 'untag':
      return byKind(deed, { point: () => done(deed, phrase.sense === 'unlock' ? 'unlock' : 'untag', deed.objects) });
    case 'bleed':
      return bleedAt(deed);
    case 'restrain':
      return restrainWith(deed);
    case 'release':
      return byKind(deed, { point: () => movePoints(deed, ['out']), control: () => done(deed, 'control', deed.objects) });
    case 'prove':
    case 'test':
      return proveWith(deed);
    case 'energise':
      return makeEnergyWith(deed, deed.objects);
    case 'restore':
      return byKind(deed, { point: () => movePoints(deed, ['on', 'open', 'plugged in']) });
    case 'remove':
      return removeThings(deed);
    case 'fit':
      return fitThings(deed);
    case 'put':
      return putThings(deed);
    case 'replace':
      return phrase.renewed || deed.tools.some((use) => use.thing.kind === 'replacement')
        ? renewThings(deed)
        : cannot(deed, '"replace" may be to put back or to renew');
    case 'renew':
      return renewThings(deed);
    case 'loosen':
      return byKind(deed, {
        fastener: () => done(deed, 'loosen', deed.objects),
        // "Undo the pin": what holds by being in.
        point: () => movePoints(deed, ['out']),
        part: () =>
          ['loosen', 'slacken', 'undo'].includes(phrase.base)
            ? done(deed, 'loosen', deed.objects)
            : phrase.base === 'unscrew'
              ? done(deed, 'open', deed.objects)
              : cannot(deed),
        cover: () => done(deed, 'open', deed.objects),
      });
    case 'tighten':
      return byKind(deed, { fastener: () => done(deed, 'tighten', deed.objects), part: () => done(deed, 'tighten', deed.objects) });
    case 'adjust':
      return byKind(deed, {
        part: () => done(deed, 'adjust', deed.objects),
        fastener: () => done(deed, 'adjust', deed.objects),
        measurement: () => done(deed, 'adjust', deed.objects),
        control: () => done(deed, 'adjust', deed.objects),
        cover: () => done(deed, 'adjust', deed.objects),
      });
    case 'clean':
      // "Dust the belts with talc" puts something on; "dust the belts" takes it off.
      if (phrase.base === 'dust' && deed.tools.some((use) => use.thing.kind === 'consumable')) return cannot(deed);
      return handOn(deed, 'clean');
    case 'apply':
      return applyTo(deed);
    case 'move':
      return phrase.position || deed.objects[0]?.thing.kind === 'control' || deed.objects[0]?.thing.kind === 'point'
        ? setTo(deed)
        : handOn(deed, 'move');
    case 'handle':
      return handleThings(deed);
    case 'clear':
      return clearAway(deed);
    case 'measure':
      return measureThings(deed);
    case 'read':
      return readGauge(deed);
    case 'look':
      return senseThings(deed, false);
    case 'listen':
      return senseThings(deed, false);
    case 'feel':
      return senseThings(deed, true);
    case 'watch':
      return onlyNamed(deed, 'observe', false);
    case 'check':
      return checkThings(deed);
    case 'record':
      if (deed.objects.some(({ thing }) => ['zone', 'cover', 'part', 'fastener'].includes(thing.kind)) && phrase.base === 'enter')
        return deed.objects.every(({ thing }) => thing.kind === 'zone') ? done(deed, 'handle', deed.objects) : cannot(deed);
      // "Fill in the job card"; "fill in the gap" is none.
      if (phrase.base === 'fill' && !/\b(?:card|sheet|form|record|log|report|label|tag|book|list|table|column|box)s?\b/i.test(phrase.text))
        return cannot(deed);
      // What is written down need not be registered; "enter the pit" is no writing.
      return phrase.unknown.length > 0 &&
        deed.objects.length === 0 &&
        phrase.nouns.length === 0 &&
        !['write', 'record', 'fill', 'sign'].includes(phrase.base)
        ? cannot(deed)
        : { actions: [actionOf(deed, 'record', deed.objects, { contact: false })] };
    case 'tell':
      return { actions: [actionOf(deed, 'tell', [], { contact: false })] };
    case 'send':
      return phrase.nouns.includes('people') ||
        phrase.places.some((place) => place.preposition === 'from' || place.preposition === 'out') ||
        phrase.objects.some((use) => use.thing.kind === 'role')
        ? { actions: [actionOf(deed, 'clear-people', [], { contact: false })] }
        : cannot(deed);
    case 'collect':
      return phrase.nouns.includes('tools') || allTools(deed)
        ? { actions: [actionOf(deed, 'take-tools', [], { contact: false })] }
        : cannot(deed);
    case 'wear':
      return byKind(deed, { tool: () => done(deed, 'protect', deed.objects, { contact: false }) });
    case 'stay':
      if ((deed.objects.length > 0 || phrase.unknown.length > 0) && !/\b(?:clear|back|away|aside)\b/.test(phrase.text)) return cannot(deed);
      return phrase.nouns.includes('people')
        ? { actions: [actionOf(deed, 'clear-people', [], { contact: false })] }
        : { actions: [actionOf(deed, 'stand-clear', [], { contact: false })] };
    case 'keep':
      return keepSo(deed);
    case 'leave':
      return goesOnDoing(deed) ? cannot(deed) : { actions: [] };
    case 'wait':
      return { actions: [actionOf(deed, 'wait', deed.objects, { contact: false, ...(atMost(phrase.text) ? { amounts: [] } : {}) })] };
    case 'use':
      if (phrase.particle !== '') return temporaryTool(deed, 'put-in');
      if (makersAmong(deed, deed.objects).length > 0) return makeEnergyWith(deed, deed.objects);
      return { actions: [actionOf(deed, 'use', deed.objects, { contact: false })] };
    case 'weak':
      return weakVerb(deed);
    default:
      return cannot(deed);
  }
}
