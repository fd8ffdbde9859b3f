/** DEVELOPERS.md and README.md keep their promises: rules with reasons, links that lead somewhere, scripts that exist. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readText, root } from './source.ts';

/** The items of the bullet list below one heading, continuation lines joined. */
function items(text: string, heading: string): readonly string[] {
  const from = text.indexOf(`\n## ${heading}\n`);
  if (from === -1) return [];
  const rest = text.slice(from + 5 + heading.length);
  const section = rest.slice(0, /\n## /.exec(rest)?.index ?? rest.length);
  return section
    .split(/\n(?=(?:- |\d+\. ))/)
    .slice(1)
    .map((item) => item.split('\n\n')[0]?.replaceAll(/\s+/g, ' ').trim() ?? '');
}

describe('DEVELOPERS.md', () => {
  const text = readText('DEVELOPERS.md');
  test('has rules, and each has its "because"', () => {
    const rules = items(text, 'Rules');
    expect(rules.length).toBeGreaterThan(5);
    expect(rules.filter((rule) => !/\bbecause\b/.test(rule))).toEqual([]);
  });
});

describe.each(['README.md', 'DEVELOPERS.md'])('%s', (name) => {
  const text = readText(name);

  test('its links and named paths exist', () => {
    const links = [...text.matchAll(/\]\((?!https?:|#)([^)#\s]+)/g)].map((match) => match[1] ?? '');
    const paths = [...text.matchAll(/`((?:procedures-schema|publishing|cli|electron|tests|sample-procedures|\.ci)\/[\w./-]*)`/g)].map(
      (match) => match[1] ?? '',
    );
    expect([...links, ...paths].filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });

  test('its npm scripts exist', () => {
    const scripts = (JSON.parse(readText('package.json')) as { scripts: Record<string, string> }).scripts;
    const named = [...text.matchAll(/npm (?:run (?:-s )?)?([a-z][a-z:]*)/g)].map((match) => match[1] ?? '');
    const own = new Set(['ci', 'install', ...Object.keys(scripts)]);
    expect(named.filter((script) => !own.has(script))).toEqual([]);
  });
});
