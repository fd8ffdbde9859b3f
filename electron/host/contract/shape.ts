/** Shapes of requests as data, and the one function that holds a request against its shape. Strict: what is not in the shape is refused. */

export type Shape = 'text' | 'text?' | 'text or null' | readonly [Shape] | { readonly [key: string]: Shape };

/** Undefined: it fits. Else where and what is wrong, in words. */
export function misfit(value: unknown, shape: Shape, at = 'the request'): string | undefined {
  if (shape === 'text') return typeof value === 'string' ? undefined : `${at} must be text`;
  if (shape === 'text?') return value === undefined || typeof value === 'string' ? undefined : `${at} must be text or absent`;
  if (shape === 'text or null') return value === null || typeof value === 'string' ? undefined : `${at} must be text or null`;
  if (isList(shape)) {
    if (!Array.isArray(value)) return `${at} must be a list`;
    for (const [index, item] of value.entries()) {
      const wrong = misfit(item, shape[0], `${at}[${index}]`);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return `${at} must be an object`;
  for (const key of Object.keys(value)) if (!Object.hasOwn(shape, key)) return `${at} has "${key}", which nobody asked for`;
  for (const [key, inner] of Object.entries(shape)) {
    const own = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
    const wrong = misfit(own, inner, `${at}.${key}`);
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

const isList = (shape: Shape): shape is readonly [Shape] => Array.isArray(shape);
