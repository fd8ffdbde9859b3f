/** The built page and what it may do. Exports only. */
export { type PageFile, pageFile } from './page-file.ts';
export { PAGE_HEADERS, PAGE_POLICY } from './policy.ts';
