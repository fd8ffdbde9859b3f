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
  judge,
  type Limit,
  type LimitModel,
  type Limits,
  limitFor,
  limitQuantity,
  limitsFor,
  limitsOf,
  parseQuantity,
  printQuantity,
  type Quantity,
  type Rational,
  rangeName,
  reaches,
  toNumber,
  usableRange,
} from '../../../procedures-schema/quantities/index.ts';
import { readHead } from '../../../procedures-schema/registers/index.ts';

const model = (name: string, ...ranges: LimitModel['ranges']): LimitModel => ({ name, spellings: [name.toLowerCase()], ranges });
const MODELS = [model('K-1', { attributes: { span: '500 mm', belts: '2' } }), model('K-2', { attributes: { span: '800 mm', belts: '3' } })];
/** K-3 changed twice: its span at the first break, its belts at the second. */
const BROKEN = [
  ...MODELS,
  model(
    'K-3',
    { serial: { to: 99 }, attributes: { span: '500 mm', belts: '2' } },
    { serial: { from: 100, to: 199 }, attributes: { span: '900 mm', belts: '2' } },
    { serial: { from: 200 }, attributes: { span: '900 mm', belts: '3' } },
  ),
];

const limitsOfField = (field: string): readonly Limit[] => {
  const { tree } = readProcedure('procedures/p.md', `---\nmeasurements:\n  gap: {quantity: length, limits: ${field}}\n---\n`);
  const [measurement] = readHead(tree).head.measurements;
  return limitsOf(measurement as NonNullable<typeof measurement>, undefined, MODELS).limits;
};

/** Limits as `K-1: 0.5..1.5 mm`, then problems as `kind names @line:column` with the body's first line as 1. */
function limits(field: string, body = '', models: readonly LimitModel[] = MODELS): readonly string[] {
  const text = `---\nmeasurements:\n  gap: {quantity: length, limits: ${field}}\n---\n${body}`;
  const { tree } = readProcedure('procedures/p.md', text);
  const [measurement] = readHead(tree).head.measurements;
  const tables = tree.preface.filter((block): block is Table => block.kind === 'table');
  const read = limitsOf(
    measurement as NonNullable<typeof measurement>,
    tables.find(({ id }) => id === measurement?.table),
    models,
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
  return list.map(
    ({ model: of, serial, lower, upper, unit }) =>
      `${of === undefined ? 'all' : rangeName(of, serial)}: ${number(lower)}..${number(upper)} ${unit.symbol}`,
  );
}

describe('front matter', () => {
  test.each<[string, readonly string[]]>([
    ['{lower: 0.5 mm, upper: 1.5 mm}', ['all: 0.5..1.5 mm']],
    ['{lower: 0.5, upper: 1.5 mm}', ['all: 0.5..1.5 mm']],
    ['{upper: 1.5 mm}', ['all: ..1.5 mm']],
    ['{nominal: 5 mm, tolerance: 0.2 mm}', ['all: 4.8..5.2 mm']],
    ['5 mm ± 0.2 mm', ['all: 4.8..5.2 mm']],
    ['{nominal: 25.4 mm, tolerance: 0.1 in}', ['all: 22.86..27.94 mm']],
    ['{nominal: 70 °F, tolerance: 5 K}', ['all: 61..79 °F']],
    ['{K-1: {lower: 1 mm}, k-2: {upper: 2 mm}}', ['K-1: 1.. mm', 'K-2: ..2 mm']],
  ])('%s', (field, expected) => {
    expect(limits(field)).toEqual(expected);
  });
  test.each<[string, readonly string[]]>([
    ['{lower: 2 mm, upper: 1 mm}', ['all: 2..1 mm', 'inverted 2, 1 @-1:3']],
    ['{lower: thick, upper: 1 mm}', ['all: ..1 mm', 'unreadable thick @-1:3']],
    ['{lower: 1 mm, upper: 1 in}', ['all: 1..1 mm', 'unit differs mm, in @-1:3']],
    ['{nominal: 5 mm, tolerance: 2 N}', ['unit differs mm, N @-1:3']],
    ['{K-1: {lower: 1 mm}}', ['K-1: 1.. mm', 'missing row K-2 @-1:3']],
    ['{K-1: {lower: 1 mm}, K-2: {lower: 2 mm}, K-3: {lower: 3 mm}}', ['K-1: 1.. mm', 'K-2: 2.. mm', 'stray row K-3 @-1:76']],
  ])('told: %s', (field, expected) => {
    expect(limits(field)).toEqual(expected);
  });
});

test('limits around a nominal value are printed as limits', () => {
  const { tree } = readProcedure('p.md', '---\nmeasurements:\n  gap: {quantity: length, limits: 5.0 mm ± 0.25 mm}\n---\n');
  const [measurement] = readHead(tree).head.measurements;
  const [limit] = limitsOf(measurement as NonNullable<typeof measurement>, undefined, MODELS).limits;
  expect(printQuantity(limitQuantity(limit as Limit) as Quantity).replaceAll('\u00a0', ' ')).toBe('4.75 to 5.25 mm');
});

test('a reading is judged by the limits of the machine it was taken on', () => {
  const { limits: list } = limitsOf(
    {
      name: 'gap',
      quantity: 'length',
      span: { start: 0, end: 0 },
      lower: '0 mm',
      upper: '1 % of span',
      perModel: [],
    },
    undefined,
    BROKEN,
  );
  const judged = (text: string, serial?: { readonly from?: number; readonly to?: number }) =>
    judge(text, limitFor(list, { model: 'K-3', ...(serial ? { serial } : {}) }) as Limit);
  expect([judged('7 mm', { to: 99 }), judged('7 mm', { from: 100, to: 199 }), judged('9.1', { from: 200 })]).toEqual([
    'over',
    'within',
    'over',
  ]);
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
  test('a nominal value with its tolerance', () => {
    expect(table('| model | gap |', '|---|---|', '| K-1 | 5 ± 0.2 mm |', '| K-2 | 6.0 mm ± 0.25 mm |')).toEqual([
      'K-1: 4.8..5.2 mm',
      'K-2: 5.75..6.25 mm',
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
      'stray row K-9 @7:1',
      'double row K-1 @6:1',
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

describe('formulas in a table of the body', () => {
  const table = (...lines: readonly string[]) => limits('table gaps', `Limits {#gaps}\n\n${lines.join('\n')}\n`);
  const two = (upper: string, other = upper, head = 'upper') =>
    table(`| model | lower (mm) | ${head} |`, '|---|---|---|', `| K-1 | 1 | ${upper} |`, `| K-2 | 1 | ${other} |`);
  test.each<[string, string, readonly string[]]>([
    ['1.6 % of span', 'upper (mm)', ['K-1: 1..8 mm', 'K-2: 1..12.8 mm']],
    // told in the unit of the heading, or of the typed cell beside it
    ['1.6 % of span', 'upper', ['K-1: 1..8 mm', 'K-2: 1..12.8 mm']],
    ['0.1 in + 0.1 % of span', 'upper (mm)', ['K-1: 1..3.04 mm', 'K-2: 1..3.34 mm']],
    ['belt deflection(span), to 0.5 mm', 'upper (mm)', ['K-1: 1..7.5 mm', 'K-2: 1..12.5 mm']],
    ['span', 'upper (mm)', ['K-1: 1..500 mm', 'K-2: 1..800 mm']],
    ['at most 1.6 % of span', 'gap (mm)', ['K-1: ..8 mm', 'K-2: ..12.8 mm']],
    ['min. 1.6 % of span', 'gap (mm)', ['K-1: 8.. mm', 'K-2: 12.8.. mm']],
  ])('%s under %s', (formula, head, expected) => {
    expect(two(formula, formula, head)).toEqual(expected);
  });
  test.each<[string, string, string]>([
    ['25 N + 4 N per belt', 'upper (mm)', 'formula unit 25 N + 4 N per belt, mm, K-1, force @5:11'],
    ['25 N + 4 N per belt', 'upper', 'formula unit 25 N + 4 N per belt, mm, K-1, force @5:11'],
    ['2 mm + 3 N', 'upper (mm)', 'formula dimension 2 mm + 3 N, + 3 N, K-1 @5:11'],
    ['1.6 % of spam', 'upper (mm)', 'formula name 1.6 % of spam, spam, K-1, span @5:11'],
    ['span / (belts - 2)', 'upper (mm)', 'formula value span / (belts - 2), / (belts - 2), K-1 @5:11'],
    ['1.6 % of', 'upper (mm)', 'formula 1.6 % of, 1.6 % of, K-1 @5:11'],
  ])('told: %s under %s', (formula, head, expected) => {
    const told = two(formula, '9', head);
    expect(told).toEqual(['K-1: 1.. mm', 'K-2: 1..9 mm', expected]);
  });
  test('a formula under a heading that names no end must say which it is', () => {
    expect(two('1.6 % of span', 'at most 9', 'gap (mm)')).toEqual(['K-1: .. ', 'K-2: ..9 mm', 'formula end 1.6 % of span @5:11']);
  });
  test('the ends of a computed range have as many decimals, whatever each alone would want', () => {
    const ends = (field: string) => limitsOfField(field).map(({ lower, upper, unit }) => `${lower?.text}..${upper?.text} ${unit.symbol}`);
    expect(ends('{lower: 2 N + 1 N per belt, upper: 5 N + 1.5 N per belt}')).toEqual(['4..8 N', '5.0..9.5 N']);
    expect(ends('{lower: 0.1 % of span, upper: 0.2 % of span}')).toEqual(['0.5..1.0 mm', '0.8..1.6 mm']);
    // Rounded inward, as each alone: the third decimal of the upper one was cut before.
    expect(ends('{lower: span / 1500, upper: span / 150}')).toEqual(['0.334..3.333 mm', '0.534..5.333 mm']);
  });
  test('a computed limit above the other', () => {
    expect(two('0.1 % of span', '9').slice(2)).toEqual(['inverted 1, 0.5, K-1 @5:1']);
  });
  test('newtons in a column without a unit', () => {
    expect(
      table('| model | lower | upper |', '|---|---|---|', '| K-1 | 20 N | 25 N + 4 N per belt |', '| K-2 | 5 N per belt | 40 N |'),
    ).toEqual(['K-1: 20..33 N', 'K-2: 15..40 N']);
  });
});

describe('attributes that differ by serial number', () => {
  const table = (...lines: readonly string[]) =>
    limits('table gaps', ['| model | lower (mm) | upper (mm) |', '|---|---|---|', ...lines, '', '{#gaps}', ''].join('\n'), BROKEN);
  const others = ['| K-1 | 1 | 9 |', '| K-2 | 1 | 9 |'];
  const rest = ['K-1: 1..9 mm', 'K-2: 1..9 mm'];

  test('a formula of the front matter has a value for each range', () => {
    expect(limits('{upper: 1 % of span}', '', BROKEN)).toEqual([
      'K-1: ..5 mm',
      'K-2: ..8 mm',
      'K-3 up to 99: ..5 mm',
      'K-3 100 to 199: ..9 mm',
      'K-3 from 200: ..9 mm',
    ]);
  });
  test('ranges on which it comes to the same are one', () => {
    expect(
      limits(
        '{upper: 1 % of span + 0 mm}',
        '',
        [BROKEN[2] as LimitModel].map((one) => ({ ...one, ranges: one.ranges.slice(1) })),
      ),
    ).toEqual(['K-3: ..9 mm']);
  });
  test('one row of a table, two values', () => {
    expect(table(...others, '| K-3 | 1 | 1 % of span |')).toEqual([
      ...rest,
      'K-3 up to 99: 1..5 mm',
      'K-3 100 to 199: 1..9 mm',
      'K-3 from 200: 1..9 mm',
    ]);
  });
  test.each([
    ['| K-3 up to 99 | 1 | 2 |', '| K-3 from 100 | 1 | 3 |'],
    ['| K-3 (up to serial number 99) | 1 | 2 |', '| K-3, from serial number 100 | 1 | 3 |'],
    ['| k-3 to 99 | 1 | 2 |', '| K-3 100 onwards | 1 | 3 |'],
  ])('a row for each range: %s', (first, second) => {
    expect(table(...others, first, second)).toEqual([...rest, 'K-3 up to 99: 1..2 mm', 'K-3 from 100: 1..3 mm']);
  });
  test('a range in the middle, with a formula', () => {
    expect(
      table(...others, '| K-3 up to 99 | 1 | 2 |', '| K-3 100 to 199 | 1 | 1 % of span |', '| K-3 from 200 | 1 | 3 |').slice(2),
    ).toEqual(['K-3 up to 99: 1..2 mm', 'K-3 100 to 199: 1..9 mm', 'K-3 from 200: 1..3 mm']);
  });
  test('in the front matter', () => {
    expect(
      limits('{K-1: {upper: 1 mm}, K-2: {upper: 1 mm}, K-3 up to 99: {upper: 2 mm}, K-3 from 100: {upper: 3 mm}}', '', BROKEN),
    ).toEqual(['K-1: ..1 mm', 'K-2: ..1 mm', 'K-3 up to 99: ..2 mm', 'K-3 from 100: ..3 mm']);
  });
  test.each<[string, readonly string[], string]>([
    ['a range is missing', ['| K-3 up to 99 | 1 | 2 |', '| K-3 from 200 | 1 | 3 |'], 'missing row K-3 100 to 199 @1:1'],
    ['one range twice', ['| K-3 | 1 | 2 |', '| K-3 from 200 | 1 | 3 |'], 'double row K-3 from 200 @6:1'],
    [
      'a range that the register does not have',
      ['| K-3 up to 150 | 1 | 2 |', '| K-3 | 1 | 3 |'],
      'serial break K-3 up to 150, K-3 up to 99, K-3 100 to 199, K-3 from 200 @5:1',
    ],
    ['a range of a model without breaks', ['| K-3 | 1 | 2 |', '| K-1 from 5 | 1 | 2 |'], 'serial break K-1 from 5, K-1 @6:1'],
    ['words after the model that are no range', ['| K-3 | 1 | 2 |', '| K-3 with heater | 1 | 2 |'], 'stray row K-3 with heater @6:1'],
  ])('told: %s', (_name, rows, expected) => {
    expect(table(...others, ...rows).at(-1)).toBe(expected);
  });
  test('what is wrong on every range is told once', () => {
    expect(table(...others, '| K-3 | | 1 % of spam |').filter((line) => !/^K-/.test(line))).toEqual([
      expect.stringMatching(/^empty cell/),
      'formula name 1 % of spam, spam, K-3 up to 99, span @5:9',
    ]);
  });
});

test('the row of a model, else the limits for all', () => {
  const unit = (parseQuantity('1 mm') as Quantity).unit;
  const span = { start: 0, end: 0 };
  const list = [
    { unit, span },
    { model: 'K-1', unit, span },
  ];
  expect(limitFor(list, { model: 'K-1' })?.model).toBe('K-1');
  expect(limitFor(list, { model: 'K-2' })).toEqual({ unit, span });
  expect(limitFor([{ model: 'K-1', unit, span }], { model: 'K-2' })).toBeUndefined();
  const broken = [
    { model: 'K-1', serial: { to: 99 }, unit, span },
    { model: 'K-1', serial: { from: 100 }, unit, span },
  ];
  expect(limitFor(broken, { model: 'K-1', serial: { from: 100 } })?.serial).toEqual({ from: 100 });
  expect(limitFor(broken, { model: 'K-1', serial: { to: 99 } })?.serial).toEqual({ to: 99 });
  expect(limitsFor(broken, 'K-1')).toHaveLength(2);
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
