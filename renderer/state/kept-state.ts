/** State of a sheet that outlives a look at another view: who follows a change into the text finds the sheet as it was left. For this window only. */
import { useCallback, useState } from 'react';

const kept = new Map<string, unknown>();

/** As useState. `name` is the sheet's own; one name, one type. */
export function useKept<T>(name: string, first: T): readonly [T, (value: T) => void] {
  const [value, setValue] = useState<T>(() => (kept.has(name) ? (kept.get(name) as T) : first));
  const keep = useCallback(
    (next: T) => {
      kept.set(name, next);
      setValue(next);
    },
    [name],
  );
  return [value, keep];
}
