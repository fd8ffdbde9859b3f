/** The smallest store: a value, whoever listens, and a hook. */
import { useRef, useSyncExternalStore } from 'react';

export interface Store<T> {
  get(): T;
  set(change: Partial<T>): void;
  use(): T;
  /** Told when one of these values became another, until the returned function is called. */
  listen(listener: () => void, ...names: readonly (keyof T)[]): () => void;
  /** Only what is picked: drawn anew when one of these values is another. */
  usePick<K extends keyof T>(...names: readonly K[]): Pick<T, K>;
}

export function newStore<T extends object>(first: T): Store<T> {
  let value = first;
  const listeners = new Set<() => void>();
  const listen = (listener: () => void): (() => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  return {
    get: () => value,
    set(change) {
      value = { ...value, ...change };
      for (const listener of listeners) listener();
    },
    listen(listener, ...names) {
      let last = value;
      return listen(() => {
        const before = last;
        last = value;
        if (names.some((name) => !Object.is(before[name], value[name]))) listener();
      });
    },
    use: () => useSyncExternalStore(listen, () => value),
    usePick(...names) {
      const last = useRef<Pick<T, (typeof names)[number]>>(undefined);
      return useSyncExternalStore(listen, () => {
        const known = last.current;
        if (known && names.every((name) => Object.is(known[name], value[name]))) return known;
        const picked = Object.fromEntries(names.map((name) => [name, value[name]])) as Pick<T, (typeof names)[number]>;
        last.current = picked;
        return picked;
      });
    },
  };
}
