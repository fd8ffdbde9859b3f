/** Rules about package.json: exact versions, and every pin known to DEVELOPERS.md. */
import { expect, test } from 'vitest';
import { readText } from './source.ts';

interface Package {
  readonly scripts: Readonly<Record<string, string>>;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}
const manifest = JSON.parse(readText('package.json')) as Package;
const all = { ...manifest.dependencies, ...manifest.devDependencies };

test('every package is pinned to one version', () => {
  const loose = Object.entries(all).filter(([, version]) => !/^(npm:@?[a-z/-]+@)?\d+\.\d+\.\d+$/.test(version));
  expect(loose).toEqual([]);
});

test('every package has a reason in DEVELOPERS.md', () => {
  const text = readText('DEVELOPERS.md');
  expect(Object.keys(all).filter((name) => !text.includes(`\`${name}\``))).toEqual([]);
});

test('every script of the three promised ones starts with the set-up', () => {
  for (const name of ['demo', 'test', 'start']) {
    const file = /^node (\S+\.mjs)/.exec(manifest.scripts[name] ?? '')?.[1];
    expect(file, name).toBeDefined();
    expect(readText(file ?? ''), name).toMatch(/await setUp\(\)/);
  }
});
