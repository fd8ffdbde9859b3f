/**
 * `npm run readme`: writes the list of checks in README.md from the checks' own words, between its two markers. A tidy test compares,
 * so that the list cannot go stale.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { checks } from '../../procedures-schema/index.ts';
import { unreadableFile } from '../unreadable-file.ts';

const OPENING = '<!-- checks: written by "npm run readme" -->';
const CLOSING = '<!-- end of checks -->';

/** The README with its list of checks as it should be. */
export function withChecks(readme: string): string {
  const from = readme.indexOf(OPENING);
  const to = readme.indexOf(CLOSING);
  if (from === -1 || to < from) throw new Error('README.md has lost the markers of its list of checks');
  return `${readme.slice(0, from + OPENING.length)}\n\n${checksTable()}\n\n${readme.slice(to)}`;
}

export function checksTable(): string {
  const rows = [...checks, unreadableFile]
    .map(({ id, severity, question }) => `| \`${id}\` | ${severity} | ${question.replaceAll('|', '\\|')} |`)
    .sort();
  return ['| check | severity | what it asks |', '| --- | --- | --- |', ...rows].join('\n');
}

if (process.argv[1] && pathToFileURL(process.argv[1]).href === import.meta.url) {
  const file = fileURLToPath(new URL('../../README.md', import.meta.url));
  writeFileSync(file, withChecks(readFileSync(file, 'utf8')));
}
