/**
 * Shapes of requests and answers as data, the types that follow from them, and the one function that holds a value against its shape. Strict:
 * what is not in the shape is refused.
 */

export type Shape =
  | 'text'
  | 'text?'
  | 'text or null'
  | 'flag'
  /** One of these words. */
  | readonly ['words', ...(readonly string[])]
  | readonly ['or null', Shape]
  /** A record under names that are not known beforehand. */
  | readonly ['by name', Shape]
  /** A list. */
  | readonly [Shape]
  | { readonly [key: string]: Shape };

/** The type of what fits a shape, so that nothing is written down twice. */
export type Of<S> = S extends 'text'
  ? string
  : S extends 'text?'
    ? string | undefined
    : S extends 'text or null'
      ? string | null
      : S extends 'flag'
        ? boolean
        : S extends readonly ['words', ...infer W extends readonly string[]]
          ? W[number]
          : S extends readonly ['or null', infer Inner]
            ? Of<Inner> | null
            : S extends readonly ['by name', infer Inner]
              ? Readonly<Record<string, Of<Inner>>>
              : S extends readonly [infer Inner]
                ? readonly Of<Inner>[]
                : OfRecord<S>;

type OfRecord<S> = keyof S extends never
  ? Readonly<Record<string, never>>
  : Flat<
      { readonly [K in keyof S as S[K] extends 'text?' ? never : K]: Of<S[K]> } & {
        readonly [K in keyof S as S[K] extends 'text?' ? K : never]?: string;
      }
    >;

type Flat<T> = { readonly [K in keyof T]: T[K] };

/** Undefined: it fits. Else where and what is wrong, in words. */
export function misfit(value: unknown, shape: Shape, at = 'the request'): string | undefined {
  if (typeof shape === 'string') return SIMPLE[shape].fits(value) ? undefined : `${at} must be ${SIMPLE[shape].words}`;
  if (isWords(shape)) return shape.slice(1).includes(value as string) ? undefined : `${at} must be one of ${shape.slice(1).join(', ')}`;
  if (isTagged(shape, 'or null')) return value === null ? undefined : misfit(value, shape[1], at);
  if (isList(shape)) {
    if (!Array.isArray(value)) return `${at} must be a list`;
    return first(value.entries(), ([index, item]) => misfit(item, shape[0], `${at}[${index}]`));
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return `${at} must be an object`;
  const given = value as Readonly<Record<string, unknown>>;
  if (isTagged(shape, 'by name')) return first(Object.entries(given), ([key, item]) => misfit(item, shape[1], `${at}.${key}`));
  for (const key of Object.keys(given)) if (!Object.hasOwn(shape, key)) return `${at} has "${key}", which nobody asked for`;
  return first(Object.entries(shape), ([key, inner]) => misfit(Object.hasOwn(given, key) ? given[key] : undefined, inner, `${at}.${key}`));
}

type Simple = Extract<Shape, string>;

const SIMPLE: Readonly<Record<Simple, { readonly fits: (value: unknown) => boolean; readonly words: string }>> = {
  text: { fits: (value) => typeof value === 'string', words: 'text' },
  'text?': { fits: (value) => value === undefined || typeof value === 'string', words: 'text or absent' },
  'text or null': { fits: (value) => value === null || typeof value === 'string', words: 'text or null' },
  flag: { fits: (value) => typeof value === 'boolean', words: 'yes or no' },
};

function first<T>(items: Iterable<T>, look: (item: T) => string | undefined): string | undefined {
  for (const item of items) {
    const wrong = look(item);
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

type Tagged = 'or null' | 'by name';

const isWords = (shape: Shape): shape is readonly ['words', ...string[]] =>
  Array.isArray(shape) && shape[0] === 'words' && shape.length > 1;
const isTagged = (shape: Shape, tag: Tagged): shape is readonly [Tagged, Shape] =>
  Array.isArray(shape) && shape.length === 2 && shape[0] === tag;
const isList = (shape: Shape): shape is readonly [Shape] => Array.isArray(shape) && shape.length === 1;
