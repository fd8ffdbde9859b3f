/** Shares the width of a table among its columns from what their content needs. Knows numbers only. */
import { type Mp, pt } from './units.ts';

export interface Extent {
  /** The widest thing that cannot break, padding included. */
  readonly least: Mp;
  /** All on one line, padding included. */
  readonly most: Mp;
}

/** The widest letter of a cell, and the space at both its sides. */
const oneLetter = pt(20);

/** Widths in whole millipoints, summing to at most `room`. Small tables keep their natural size and a little air. */
export function shareColumns(columns: readonly Extent[], room: Mp): readonly Mp[] {
  const least = columns.reduce((sum, column) => sum + column.least, 0);
  const most = columns.reduce((sum, column) => sum + column.most, 0);
  if (most <= room) {
    // Spread what is left evenly by need, up to half as much again: wide gulfs between columns lose the reader's line.
    const spare = Math.min(room - most, Math.floor(most / 2));
    return columns.map((column) => column.most + Math.floor((spare * column.most) / Math.max(1, most)));
  }
  if (least <= room) {
    // Columns that need little get all of it; the rest share what is left alike, so that no short text is broken for the sake of a long one.
    const cap = capFor(columns, room);
    const widths = columns.map((column) => Math.max(column.least, Math.min(column.most, cap)));
    const rest = room - widths.reduce((sum, width) => sum + width, 0);
    const widest = widths.indexOf(Math.max(...widths));
    return widths.map((width, index) => (index === widest ? width + rest : width));
  }
  // Too much even broken: by need, but nobody below an even half share; words will be cut between letters.
  const floor = Math.min(Math.floor(room / columns.length), Math.max(Math.floor(room / (2 * columns.length)), oneLetter));
  const given = columns.map((column) => Math.max(floor, Math.floor((room * column.least) / least)));
  const over = given.reduce((sum, width) => sum + width, 0) - room;
  if (over <= 0) return given;
  const above = given.reduce((sum, width) => sum + (width - floor), 0);
  return given.map((width) => width - Math.ceil(((width - floor) * over) / Math.max(1, above)));
}

/** Columns of wished widths, none narrower than what cannot break in it; what it lacks comes from those that have more than they need. */
export function atLeast(wished: readonly Mp[], columns: readonly Extent[]): readonly Mp[] {
  const least = columns.map((column) => column.least);
  const room = wished.reduce((sum, width) => sum + width, 0);
  if (least.reduce((sum, width) => sum + width, 0) > room) return shareColumns(columns, room);
  const lacking = wished.reduce((sum, width, index) => sum + Math.max(0, (least[index] as Mp) - width), 0);
  if (lacking === 0) return wished;
  const spare = wished.map((width, index) => Math.max(0, width - (least[index] as Mp)));
  const all = spare.reduce((sum, width) => sum + width, 0);
  return wished.map((width, index) => Math.max(least[index] as Mp, width - Math.ceil(((spare[index] as Mp) * lacking) / all)));
}

/** The same columns spread over the whole room, each by its width. */
export function fillColumns(widths: readonly Mp[], room: Mp): readonly Mp[] {
  const total = widths.reduce((sum, width) => sum + width, 0);
  if (total >= room || total === 0) return widths;
  const out = widths.map((width) => Math.floor((width * room) / total));
  const rest = room - out.reduce((sum, width) => sum + width, 0);
  return out.map((width, index) => (index === out.length - 1 ? width + rest : width));
}

/** The greatest width to cap columns at so that all fit. `least` fits. */
function capFor(columns: readonly Extent[], room: Mp): Mp {
  let [low, high] = [0, room];
  while (low < high) {
    const cap = Math.ceil((low + high) / 2);
    const total = columns.reduce((sum, column) => sum + Math.max(column.least, Math.min(column.most, cap)), 0);
    if (total <= room) low = cap;
    else high = cap - 1;
  }
  return low;
}
