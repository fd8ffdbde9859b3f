/** Moves a piece of tree read on its own to its place in the file: every offset grows by the same amount. Always a copy. Knows the tree's offset fields. */

/** Fields that hold source offsets. `at` and `length` of segments and `at`, `end` of marks count in prose text and stay. */
export function shifted<T>(value: T, by: number): T {
  return moved(value, by) as T;
}

function moved(value: unknown, by: number): unknown {
  if (Array.isArray(value)) return value.map((item) => moved(item, by));
  if (value === null || typeof value !== 'object') return value;
  const from = value as { readonly [key: string]: unknown; readonly start?: unknown; readonly end?: unknown };
  const out: Record<string, unknown> = {};
  const span = typeof from.start === 'number' && typeof from.end === 'number';
  for (const key in from) {
    const field = from[key];
    if (typeof field === 'number') out[key] = (span && (key === 'start' || key === 'end')) || key === 'source' ? field + by : field;
    else out[key] = typeof field === 'object' ? moved(field, by) : field;
  }
  return out;
}
