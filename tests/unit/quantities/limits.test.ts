/**
 * Limits of a measurement per model, from front matter or from a table of the body, and whether an instrument suits them.
 * Source: format rule F10 of the project; fineness of four and ten: test uncertainty ratio and shop rule, common practice; a torque
 * wrench from a fifth of its scale: common practice, no source.
 */
import { describe, expect, test } from 'vitest';
import { positionAt, readProcedure, type Table } from '../../../procedures-schema/format/index.ts';
import {
  findQuantities,
  fineness,
  type Limits,
  limitFor,
  limitsOf,
  parseQuantity,
  type Quantity,
  type Rational,
  reaches,
  toNumber,
  usableRange,
} from '../../../procedures-schema/quantities/index.ts';
import { readHead } from '../../../procedures-schema/registers/index.ts';

const MODELS = ['K-1', 'K-2'];

/** Limits as `K-1: 0.5..1.5 mm`, then problems as `kind names @line:column` with the body's first line as 1. */
function limits(field: string, body = ''): readonly string[] {
  const text = `---\nmeasurements:\n  gap: {quantity: length, limits: ${field}}\n---\n${body}`;
  const { tree } = readProcedure('procedures/p.md', text);
  const [measurement] = readHead(tree).head.measurements;
  const tables = tree.preface.filter((block): block is Table => block.kind === 'table');
  const read = limitsOf(
    measurement as NonNullable<typeof measurement>,
    tables.find(({ id }) => id === measurement?.table),
    MODELS,
  );
  return [
    ...said(read),
    ...read.problems.map(({ kind, names, span }) => {
      const { line, column } = positionAt(tree.source, span.start);
      return `${kind}${names.length > 0 ? ` ${names.join(', ')}` : ''} @${line - 4}:${column}`;
    }),
  ];
}

function said({ limits: list }: Limits): string[] {
  const number = (amount: { readonly value: Rational } | undefined) => (amount ? String(toNumber(amount.value)) : '');
  return list.map(({ model, lower, upper, unit }) => `${model ?? 'all'}: ${number(lower)}..${number(upper)} ${unit.symbol}`);
}

describe('front matter', () => {
  test.each<[string, readonly string[]]>([
    ['{lower: 0.5 mm, upper: 1.5 mm}', ['all: 0.5..1.5 mm']],
    ['{lower: 0.5, upper: 1.5 mm}', ['all: 0.5..1.5 mm']],
    ['{upper: 1.5 mm}', ['all: ..1.5 mm']],
    ['{nominal: 5 mm, tolerance: 0.2 mm}', ['all: 4.8..5.2 mm']],
    ['5 mm ± 0.2 mm', ['all: 4.8..5.2 mm']],
    ['{K-1: {lower: 1 mm}, k-2: {upper: 2 mm}}', ['K-1: 1.. mm', 'K-2: ..2 mm']],
  ])('%s', (field, expected) => {
    expect(limits(field)).toEqual(expected);
  });
  test.each<[string, readonly string[]]>([
    ['{lower: 2 mm, upper: 1 mm}', ['all: 2..1 mm', 'inverted 2, 1 @-1:3']],
    ['{lower: thick, upper: 1 mm}', ['all: ..1 mm', 'unreadable thick @-1:3']],
    ['{lower: 1 mm, upper: 1 in}', ['all: 1..1 mm', 'unit differs mm, in @-1:3']],
    ['{K-1: {lower: 1 mm}}', ['K-1: 1.. mm', 'missing row K-2 @-1:3']],
    ['{K-1: {lower: 1 mm}, K-2: {lower: 2 mm}, K-3: {lower: 3 mm}}', ['K-1: 1.. mm', 'K-2: 2.. mm', 'stray row K-3 @-1:76']],
  ])('told: %s', (field, expected) => {
    expect(limits(field)).toEqual(expected);
  });
});

describe('a table of the body', () => {
  const table = (...lines: readonly string[]) => limits('table gaps', `Limits {#gaps}\n\n${lines.join('\n')}\n`);
  test('units in the heading', () => {
    expect(table('| model | lower (mm) | upper (mm) |', '|---|---|---|', '| K-1 | 0.5 | 1.5 |', '| k-2 | 0.7 | 1.7 |')).toEqual([
      'K-1: 0.5..1.5 mm',
      'K-2: 0.7..1.7 mm',
    ]);
  });
  test('units in the cells, one column of ranges named after the measurement', () => {
    expect(table('| model | gap | note |', '|---|---|---|', '| K-1 | 0.5 to 1.5 mm | a |', '| K-2 | at most 2 mm | b |')).toEqual([
      'K-1: 0.5..1.5 mm',
      'K-2: ..2 mm',
    ]);
  });
  test('a hyphen is "not applicable", an empty cell is missing', () => {
    expect(table('| model | lower (mm) | upper (mm) |', '|---|---|---|', '| K-1 | - | 1.5 |', '| K-2 | 1 |  |')).toEqual([
      'K-1: ..1.5 mm',
      'K-2: 1.. mm',
      expect.stringMatching(/^empty cell @6:/),
    ]);
  });
  test('a missing row, a stray one, one twice, limits the wrong way round', () => {
    expect(table('| model | lower (mm) | upper (mm) |', '|---|---|---|', '| K-1 | 1 | 2 |', '| K-1 | 3 | 2 |', '| K-9 | 1 | 2 |')).toEqual([
      'K-1: 1..2 mm',
      'K-1: 3..2 mm',
      'double row K-1 @6:1',
      'stray row K-9 @7:1',
      'missing row K-2 @3:1',
      'inverted 3, 2, K-1 @6:1',
    ]);
  });
  test('no table, no model column, no column of limits, both ways at once', () => {
    expect(limits('table gaps')).toEqual(['no table gaps @-1:3']);
    expect(table('| size | lower (mm) |', '|---|---|', '| K-1 | 1 |')).toEqual(['no model column @3:1']);
    expect(table('| model | colour |', '|---|---|', '| K-1 | red |')).toEqual(['no limits column gap @3:1']);
  });
});

test('the row of a model, else the limits for all', () => {
  const unit = (parseQuantity('1 mm') as Quantity).unit;
  const span = { start: 0, end: 0 };
  const list = [
    { unit, span },
    { model: 'K-1', unit, span },
  ];
  expect(limitFor(list, 'K-1')?.model).toBe('K-1');
  expect(limitFor(list, 'K-2')).toEqual({ unit, span });
  expect(limitFor([{ model: 'K-1', unit, span }], 'K-2')).toBeUndefined();
});

describe('instruments', () => {
  const value = (text: string) => parseQuantity(text) as Quantity;
  const reach = (range: string, text: string) => {
    const usable = usableRange(range);
    const { nominal, unit } = value(text);
    return usable && nominal ? reaches(usable, nominal.value, unit) : undefined;
  };
  test.each([
    ['5 to 50 N·m', '5 N·m', true],
    ['5 to 50 N·m', '4.9 N·m', false],
    ['5 to 50 N·m', '50.1 N·m', false],
    ['5 to 50 N·m', '30 lbf·ft', true],
    ['5 to 50 N·m', '40 lbf·ft', false],
    ['5 to 50 N·m', '5 bar', undefined],
    // no lower end stated: a torque wrench from a fifth of the scale, others from nothing
    ['200 N·m', '40 N·m', true],
    ['200 N·m', '39 N·m', false],
    ['300 mm', '0 mm', true],
    ['no figure', '1 mm', undefined],
  ])('%s reaches %s: %s', (range, text, expected) => {
    expect(reach(range, text)).toBe(expected);
  });

  const fine = (resolution: string, range: string) => {
    const { lower, upper, unit } = value(range);
    const times = lower && upper && fineness(resolution, lower.value, upper.value, unit);
    return times && toNumber(times);
  };
  test.each([
    ['0.05 mm', '0.5 to 1.5 mm', 20],
    ['0.1 mm', '0.5 to 1.5 mm', 10],
    ['1 K', '40 to 44 °C', 4],
    ['1 °F', '40 to 45 °C', 9],
    ['0.001 in', '0 to 2.54 mm', 100],
    ['0.1 bar', '0.5 to 1.5 mm', undefined],
    ['fine', '0.5 to 1.5 mm', undefined],
  ])('resolution %s in %s: %s', (resolution, range, expected) => {
    expect(fine(resolution, range)).toBe(expected);
  });
});

test('pounds and ounces are mass, and say which unit is meant where a force is', () => {
  const [pull] = findQuantities('a pull of 12 lb');
  expect(pull?.quantity.unit).toMatchObject({ kind: 'mass', meant: { kind: 'force', symbol: 'lbf' } });
  const [turn] = findQuantities('tighten to 18 lb-ft');
  expect(turn?.quantity.unit).toMatchObject({ kind: 'torque', meant: { kind: 'torque', symbol: 'lbf·ft' } });
  expect(findQuantities('a pull of 12 lbf')[0]?.quantity.unit.meant).toBeUndefined();
});
