import type { Plugin as EsbuildPlugin } from 'esbuild';
import type { Plugin as VitePlugin } from 'vite';

export const doesNothing: RegExp;
export function lean(): EsbuildPlugin;
export function leanWorker(): VitePlugin;
