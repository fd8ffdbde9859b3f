import { describe, expect, expectTypeOf, test } from 'vitest';
import {
  type HostFile,
  METHODS,
  type MethodName,
  type Methods,
  misfit,
  Refused,
  type Shape,
  soundSettings,
} from '../../../electron/host/contract/index.ts';
import { newService } from '../../support/host.ts';

/** A request that fits: the least one of each shape. */
function least(shape: Shape): unknown {
  if (shape === 'text') return 'x';
  if (shape === 'text?') return undefined;
  if (shape === 'text or null') return null;
  if (shape === 'flag') return true;
  if (Array.isArray(shape)) {
    const [tag, inner] = shape as readonly [unknown, Shape];
    if (tag === 'words') return inner;
    if (tag === 'or null') return null;
    return tag === 'by name' ? { any: least(inner) } : [least(tag as Shape)];
  }
  return Object.fromEntries(
    Object.entries(shape)
      .map(([key, inner]) => [key, least(inner as Shape)])
      .filter(([, value]) => value !== undefined),
  );
}

const names = Object.keys(METHODS) as MethodName[];

describe.each(names)('%s', (name) => {
  const { ask } = METHODS[name];
  test('takes what fits its shape', () => {
    expect(misfit(least(ask), ask)).toBeUndefined();
  });

  test.each([undefined, null, 'text', 7, [], true, () => 1])('refuses %s for a request', async (wrong) => {
    await expect(newService().service.call(name, wrong, 'w')).rejects.toThrow(/must be an object/);
  });

  test('refuses what nobody asked for', async () => {
    const more = { ...(least(ask) as object), more: 1 };
    await expect(newService().service.call(name, more, 'w')).rejects.toThrow('the request has "more", which nobody asked for');
  });

  test('refuses each part that is missing or of another kind', async () => {
    for (const [key, shape] of Object.entries(ask)) {
      for (const wrong of [7, {}, ['x', 7], false]) {
        const asked = { ...(least(ask) as object), [key]: wrong };
        await expect(newService().service.call(name, asked, 'w'), `${key} = ${JSON.stringify(wrong)}`).rejects.toThrow(
          `the request.${key}`,
        );
      }
      if (shape === 'text?') continue;
      const { [key]: _, ...rest } = least(ask) as Record<string, unknown>;
      await expect(newService().service.call(name, rest, 'w')).rejects.toThrow(`the request.${key} must be`);
    }
  });

  test('answers in a shape too', () => {
    expect(misfit(least(METHODS[name].answer), METHODS[name].answer)).toBeUndefined();
    for (const wrong of [undefined, null, 'text', [], 7]) expect(misfit(wrong, METHODS[name].answer)).toBeDefined();
    expect(misfit({ ...(least(METHODS[name].answer) as object), more: 1 }, METHODS[name].answer)).toContain('nobody asked for');
  });

  test('crosses as plain data', () => {
    expect(structuredClone(METHODS[name])).toEqual(METHODS[name]);
  });
});

describe('names that are no methods', () => {
  test.each(['', 'file', 'file.Save', 'toString', 'constructor', '__proto__', 'hasOwnProperty'])('"%s" is refused', async (name) => {
    await expect(newService().service.call(name, {}, 'w')).rejects.toThrow(`There is nothing called "${name}" to ask for.`);
  });
});

describe('shapes', () => {
  test.each<[string, Shape, unknown, string | undefined]>([
    ['text', 'text', '', undefined],
    ['no text', 'text', 7, 'it must be text'],
    ['a flag', 'flag', false, undefined],
    ['no flag', 'flag', 0, 'it must be yes or no'],
    ['a word', ['words', 'a', 'b'], 'b', undefined],
    ['another word', ['words', 'a', 'b'], 'words', 'it must be one of a, b'],
    ['null', ['or null', { a: 'text' }], null, undefined],
    ['what may be null', ['or null', { a: 'text' }], { a: 1 }, 'it.a must be text'],
    ['no names', ['by name', 'text'], {}, undefined],
    ['names', ['by name', 'text'], { x: 'y', z: 1 }, 'it.z must be text'],
    ['no record', ['by name', 'text'], ['a'], 'it must be an object'],
    ['an empty list', ['text'], [], undefined],
    ['a list', ['text'], ['a', 1], 'it[1] must be text'],
    ['no list', ['text'], { 0: 'a' }, 'it must be a list'],
    ['a list of lists', [['text']], [['a'], 'b'], 'it[1] must be a list'],
  ])('%s', (_, shape, value, wrong) => expect(misfit(value, shape, 'it')).toBe(wrong));

  test('give their types', () => {
    expectTypeOf<Methods['library.open']['ask']>().toEqualTypeOf<{ readonly folder: string }>();
    expectTypeOf<Methods['settings.read']['ask']>().toEqualTypeOf<Readonly<Record<string, never>>>();
    expectTypeOf<Methods['file.read']['answer']['file']>().toEqualTypeOf<HostFile | null>();
    expectTypeOf<Methods['libraries.recent']['answer']['chooser']>().toEqualTypeOf<'system' | 'page'>();
    expectTypeOf<Methods['journal.drop']['ask']['window']>().toEqualTypeOf<string | undefined>();
    expectTypeOf<Methods['library.read']['answer']['paths']>().toEqualTypeOf<readonly string[]>();
  });
});

describe('a request that comes as JSON', () => {
  test('cannot bring properties in by its prototype', () => {
    const asked = JSON.parse('{"__proto__": {"library": "x", "path": "y"}}');
    expect(misfit(asked, METHODS['figure.read'].ask)).toMatch(/__proto__/);
    expect(misfit(Object.create({ library: 'x', path: 'y' }), METHODS['figure.read'].ask)).toMatch(/must be text/);
  });

  test('is told where in a list it goes wrong', () => {
    const files = [
      { path: 'a', base: null, text: '' },
      { path: 'b', base: 1, text: '' },
    ];
    expect(misfit({ library: 'x', files }, METHODS['file.save'].ask)).toBe('the request.files[1].base must be text or null');
  });
});

test('a library that is not open is refused by every method that names one', async () => {
  const { service } = newService();
  const naming = names.filter((name) => 'library' in (METHODS[name].ask as object));
  expect(naming.length).toBeGreaterThan(8);
  for (const name of naming) {
    const call = service.call(name, { ...(least(METHODS[name].ask) as object), library: '0123456789abcdef' }, 'w');
    await expect(call, name).rejects.toThrow(Refused);
    await expect(service.call(name, least(METHODS[name].ask), 'w'), name).rejects.toThrow('That library is not open.');
  }
});

describe('settings', () => {
  test.each([undefined, null, 7, 'x', [], { language: 7 }, { language: '<script>' }, { other: 'x' }])('%j is as standard', (value) => {
    expect(soundSettings(value)).toEqual({
      language: '',
      'text size': '100',
      'spell-check': 'on',
      tour: 'due',
      initials: '',
      'signs as': '',
      'pages zoom': '',
      'pages arranged': 'single',
    });
  });

  test('keep what is sound of a record that is partly not', () => {
    expect(soundSettings({ language: 'de', 'text size': '1000' })).toMatchObject({ language: 'de', 'text size': '100' });
  });
});
