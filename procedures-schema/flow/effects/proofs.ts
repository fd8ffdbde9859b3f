/** Proofs that energy is gone: won by a try-out, a gauge or a meter, worn by use, lost with a lock. semantics.md 6 and 7. */
import { showsGone, showsLittle, showsNoVolts } from '../../reading/index.ts';
import type { SourceRow } from '../machine.ts';
import { electrical, held, readyToProve } from '../safety.ts';
import { COVER, PROOF } from '../state.ts';
import { type Effect, thingsOf } from './doing.ts';

/** A source that can come back: the first hands-on or pause uses its proof up. semantics.md 7. */
export function wearProof(effect: Effect, row: SourceRow): void {
  const at = effect.layout.proof + row.index;
  if (isEarthed(effect, row)) return;
  const good = effect.state[at] === PROOF.good || effect.state[at] === PROOF.bared;
  if (row.source.canComeBack && good && !held(effect.layout, effect.state, row)) effect.state[at] = PROOF.used;
}

/** Earthed and short-circuited: electrical energy cannot come back. EN 50110-1 five rules. */
export function isEarthed(effect: Effect, row: SourceRow): boolean {
  if (!electrical(row)) return false;
  // The hand that clamps the earth lead on is the last that the proof serves.
  const clamping =
    effect.doing.action.kind === 'put-in' && thingsOf(effect, 'tool').some((use) => effect.doing.toolKind(use.thing.name) === 'earth lead');
  if (clamping) return true;
  return effect.layout.temporaries.some(
    (name, index) => effect.doing.toolKind(name) === 'earth lead' && effect.state[effect.layout.temporary + index] === 1,
  );
}

export function tryOut(effect: Effect): void {
  const { layout, state } = effect;
  const names = new Set(thingsOf(effect, 'control').map((use) => use.thing.name));
  const interlocked = layout.table.machine.covers.some((cover, index) => cover.interlocked && state[layout.cover + index] === COVER.open);
  for (const row of layout.table.sources) {
    if (!row.source.tryOut.some((name) => names.has(name))) continue;
    const value = !readyToProve(layout, state, row)
      ? PROOF.early
      : interlocked || selectedOff(effect, row, names)
        ? PROOF.empty
        : PROOF.good;
    noteProof(effect, row, value);
  }
}

/** A selector that would have to be on for anything to move stands at off: the try-out shows nothing. */
function selectedOff(effect: Effect, row: SourceRow, tried: ReadonlySet<string>): boolean {
  const { layout, state } = effect;
  return layout.table.machine.controls.some(
    (control, index) =>
      control.maintained && control.starts.includes(row.source.name) && !tried.has(control.name) && state[layout.control + index] === 0,
  );
}

function noteProof(effect: Effect, row: SourceRow, value: number): void {
  const at = effect.layout.proof + row.index;
  // A good proof is not undone by a second, weaker one, nor a standing check by reading once more.
  if (effect.state[at] === PROOF.watched || (effect.state[at] === PROOF.good && value !== PROOF.watched)) return;
  if (effect.state[at] === PROOF.bared && value !== PROOF.good && value !== PROOF.watched) return;
  // What was put in view early stays in view.
  effect.state[at] = value === PROOF.good && effect.state[effect.layout.inView + row.index] === 1 ? PROOF.watched : value;
}

export function dropProof(effect: Effect, row: SourceRow): void {
  effect.state[effect.layout.proof + row.index] = PROOF.none;
  effect.state[effect.layout.inView + row.index] = 0;
}

export function readProof(effect: Effect): void {
  const { action, facts } = effect.doing;
  const { layout, state } = effect;
  const gauges = new Set(action.things.filter((use) => use.thing.kind === 'gauge').map((use) => use.thing.name));
  const kinds = new Set(action.with.map((use) => effect.doing.toolKind(use.thing.name)));
  const named = new Set(thingsOf(effect, 'source').map((use) => use.thing.name));
  // "Watch the window until the wheels stand still", "measure the mains, 0 V": said without "must".
  const said = action.result ?? action.until?.text ?? action.amounts.find(({ text }) => !/\b(?:s|min|h)$/.test(text))?.text;
  const gone = said !== undefined && showsGone(said);
  const little = said !== undefined && showsLittle(said);
  // Where the writer has set limits the figure is judged by them, and they must say how little may be left.
  const judged =
    said === undefined &&
    action.kind === 'measure' &&
    thingsOf(effect, 'measurement').some(({ thing }) => showsLittle(`at most ${effect.doing.upperOf(thing.name) ?? ''}`));
  const watched = action.manner === 'in view' || /\bkeep\b.*\bin (?:view|sight)\b|\bwatch\b.*\bwhile\b/i.test(facts.words);
  for (const row of layout.table.sources) {
    const reads = row.source.shownBy.some((name) => gauges.has(name));
    // A gauge that is only kept in view proves nothing; it keeps what was proved, or will be.
    if (said === undefined && watched && reads) {
      if (state[layout.proof + row.index] === PROOF.good) noteProof(effect, row, PROOF.watched);
      else state[layout.inView + row.index] = 1;
      continue;
    }
    // Reading without a word of what it must show proves nothing; nor does what must show something else than nothing: "it must show 2 bar".
    // "Below 5 V", "40 °C or less" say how little.
    const byGauge = gone && reads;
    if (!gone && !little && !judged) continue;
    const byMeter = row.source.provedWith.some((kind) => kinds.has(kind)) && (named.size === 0 || named.has(row.source.name));
    if (!byGauge && (!byMeter || (electrical(row) && said !== undefined && showsNoVolts(said)))) continue;
    // A meter that shows no volts may be broken: it is tried where it must show some, before and after. semantics.md 6.
    const shown = byGauge || !electrical(row) ? PROOF.good : state[layout.meter] === 1 ? PROOF.metered : PROOF.empty;
    const ready = readyToProve(layout, state, row);
    noteProof(effect, row, !ready ? PROOF.early : watched && shown === PROOF.good ? PROOF.watched : shown);
    if (!ready && watched && state[layout.proof + row.index] === PROOF.early) state[layout.inView + row.index] = 1;
  }
}

/** The meter shows what is there, so what it showed just now counts, and what it shows next may. */
export function meterTried(effect: Effect): void {
  const { layout, state } = effect;
  state[layout.meter] = 1;
  for (const row of layout.table.sources)
    if (state[layout.proof + row.index] === PROOF.metered)
      state[layout.proof + row.index] = readyToProve(layout, state, row) ? PROOF.good : PROOF.early;
}

/** "until the gauge shows 0 bar": the gauge was read. */
export function readGauges(effect: Effect, words: string, early = true): void {
  const { layout, state } = effect;
  // "Until the gauge shows 2 bar": it is not gone.
  if (!showsGone(words)) return;
  const lower = words.toLowerCase();
  for (const row of layout.table.sources) {
    if (!row.source.shownBy.some((name) => lower.includes(name.toLowerCase()))) continue;
    const ready = readyToProve(layout, state, row);
    if (ready || early) noteProof(effect, row, ready ? PROOF.good : PROOF.early);
  }
}

/** "Until the gauge shows 0": what is waited for shows this source, and not another. */
export function seenGone(effect: Effect, { source }: SourceRow): boolean {
  const words = effect.doing.action.until?.text.toLowerCase() ?? '';
  // "Until the thermometer shows 180 °C": it is there, and not gone.
  if (!showsGone(words) && !showsLittle(words)) return false;
  return [source.name, ...source.shownBy, ...source.provedWith].some((name) => words.includes(name.toLowerCase()));
}

export function waysToProve({ source }: SourceRow): string[] {
  const ways = [
    ...source.tryOut.map((name) => `trying the ${name}`),
    ...source.shownBy.map((name) => `reading the ${name}`),
    ...source.provedWith.map((kind) => `measuring with a ${kind}`),
  ];
  return [ways.join(' or ')];
}
