/** The smallest store: a value, whoever listens, and a hook. */
import { useSyncExternalStore } from 'react';

export interface Store<T> {
  get(): T;
  set(change: Partial<T>): void;
  use(): T;
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
    use: () => useSyncExternalStore(listen, () => value),
  };
}
