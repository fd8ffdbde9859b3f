/** Measuring, reading and sensing: what is only looked at, what is touched, and what proves. */
import type { ActionKind } from '../action.ts';
import { actionOf, type Classified, cannot, type Deed, done, usesAt } from './deed.ts';
import { showsGone } from './showing.ts';
import { toolInUse } from './tools.ts';

/** "See the gauge fall to 0 bar", "see that the flag shows them bearing": the gauge is read. */
export function seeGauge(deed: Deed): Classified {
  const { text } = deed.phrase;
  const [gauge] = deed.objects;
  if (!gauge || deed.objects.some((use) => use.thing.kind !== 'gauge')) return cannot(deed);
  return done(deed, showsGone(text) ? 'prove' : 'observe', deed.objects, { contact: false, result: text });
}

export function proveWith(deed: Deed): Classified {
  const meter = deed.tools.some((use) => use.thing.kind === 'tool' || use.thing.kind === 'gauge');
  const measurement = deed.objects.filter((use) => use.thing.kind === 'measurement');
  if (measurement.length > 0) return done(deed, 'measure', measurement, { contact: meter });
  // "Test the multimeter on a known live source": the instrument is tried, not the machine.
  const tried = deed.objects.length > 0 && deed.objects.every((use) => use.thing.kind === 'tool');
  if (tried && /\b(?:live|known|again)\b/i.test(deed.phrase.text)) return toolInUse(deed);
  if (!meter || deed.phrase.nouns.includes('live-source')) return cannot(deed);
  return { actions: [actionOf(deed, 'prove', deed.objects, { contact: true })] };
}

export function measureThings(deed: Deed): Classified {
  const measured = deed.objects.filter((use) => use.thing.kind === 'measurement');
  if (measured.length > 0)
    return done(deed, 'measure', measured, { contact: deed.tools.some((use) => deed.equipment.tool(use.thing.name)?.contact) });
  const gauges = deed.objects.filter((use) => use.thing.kind === 'gauge');
  if (gauges.length > 0 && gauges.length === deed.objects.length) return done(deed, 'observe', gauges, { contact: false });
  const where = usesAt(deed, 'between', 'from', 'at', 'on', 'across', 'in', 'along').filter((use) =>
    ['part', 'fastener', 'cover', 'source', 'zone'].includes(use.thing.kind),
  );
  if (deed.tools.length > 0 && deed.objects.length === 0 && where.length > 0) return done(deed, 'measure', where, { contact: true });
  // "Test the meter on a live source, measure the mains": with what was taken up just now.
  const taken = deed.around.it.slice(-1).filter(({ thing }) => thing.kind === 'tool' && deed.equipment.tool(thing.name)?.contact);
  const sources = deed.objects.length > 0 && deed.objects.every(({ thing }) => thing.kind === 'source');
  if (deed.tools.length === 0 && sources && taken.length > 0) return done(deed, 'measure', deed.objects, { contact: true, with: taken });
  if (deed.tools.length === 0 || deed.objects.length === 0) return cannot(deed);
  return done(deed, 'measure', deed.objects, { contact: true });
}

export function readGauge(deed: Deed): Classified {
  const measured = deed.objects.filter((use) => use.thing.kind === 'measurement');
  if (measured.length > 0) return measureThings(deed);
  const gauges = deed.objects.filter((use) => use.thing.kind === 'gauge');
  if (gauges.length > 0 && gauges.length === deed.objects.length)
    return done(deed, deed.around.result !== undefined ? 'prove' : 'observe', gauges, { contact: false });
  const tools = deed.objects.filter((use) => use.thing.kind === 'tool');
  if (tools.length > 0 && tools.length === deed.objects.length) return done(deed, 'observe', tools, { contact: false });
  return deed.objects.length === 0 ? { actions: [actionOf(deed, 'observe', [], { contact: false })] } : cannot(deed);
}

export function senseThings(deed: Deed, contact: boolean): Classified {
  const things = [...deed.objects, ...usesAt(deed, 'at', 'for', 'on', 'in', 'along', 'over', 'into', 'under', 'through')].filter(
    (use) => use.thing.kind !== 'tool' && use.thing.kind !== 'consumable',
  );
  const gauges = things.filter((use) => use.thing.kind === 'gauge');
  if (gauges.length > 0 && gauges.length === things.length && !contact)
    return done(deed, deed.around.result === undefined ? 'observe' : 'prove', gauges, { contact: false });
  // "Reach in and feel": a hand somewhere.
  if (things.length === 0)
    return deed.phrase.unknown.length > 0 || contact ? cannot(deed) : { actions: [actionOf(deed, 'sense', [], { contact })] };
  return { actions: [actionOf(deed, 'sense', things, { contact })] };
}

export function onlyNamed(deed: Deed, kind: ActionKind, contact: boolean): Classified {
  return { actions: [actionOf(deed, kind, [...deed.objects, ...usesAt(deed, 'at', 'on')], { contact })] };
}

export function checkThings(deed: Deed): Classified {
  const measured = deed.objects.filter((use) => use.thing.kind === 'measurement');
  if (measured.length > 0 && measured.length === deed.objects.length) return measureThings(deed);
  const gauges = deed.objects.filter((use) => use.thing.kind === 'gauge');
  if (gauges.length > 0 && gauges.length === deed.objects.length) return readGauge(deed);
  if (deed.objects.length === 0 || deed.phrase.unknown.length > 0) return cannot(deed);
  return {
    actions: [
      actionOf(deed, 'sense', deed.objects, {
        contact: deed.around.manner === 'by hand' || deed.phrase.places.some(({ nouns }) => nouns.includes('work')),
      }),
    ],
  };
}
