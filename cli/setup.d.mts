/** Types of the set-up script, which is plain JavaScript because it runs before any package is there. */
export const root: string;
export const requires: { readonly js: string };
export const host: string;
export const page: string;
export const shell: string;
export const preload: string;
export function setUp(): Promise<void>;
export function buildApp(): Promise<void>;
export function buildShell(): Promise<void>;
