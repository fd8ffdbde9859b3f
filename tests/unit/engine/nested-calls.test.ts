/** An edit reaches whoever walks through the file, also by way of another: a lock dropped two calls away is told where hands go in. */
import { expect, test } from 'vitest';
import { checkLibrary, newEngine } from '../../../procedures-schema/index.ts';
import { sample } from '../../support/sample.ts';

const head = (id: string, more: string): string =>
  `---\nid: ${id}\ntitle: ${more}\nrevision: "A"\ndate: 2026-01-12\nmodels: [SP-90, SP-120]\nstarts with: closed\nends with: opened and locked out\ntime: 20 min\npeople: 1\naudience: technician\ntools: none\nconsumables: none\nparts: none\nprotection: none\n---\n`;

test('three procedures that call one another', async () => {
  const { texts, paths } = await sample();
  const lockOut = texts.find(({ text }) => text.includes('id: OM-4110'));
  if (lockOut === undefined) throw new Error('The procedure that locks out is gone.');
  const between = {
    path: 'procedures/between.md',
    text: `${head('OM-4810', 'Lock out by way of another')}\n## Lock out\n\n1. Do [OM-4110] to lock the press out.\n`,
  };
  const far = {
    path: 'procedures/far.md',
    text: `${head('OM-4820', 'Open the rear of the press')}\n## Open\n\n1. Do [OM-4810] to lock the press out.\n2. Remove the ten [rear cover screws] and take off the [rear cover].\n`,
  };
  const own = [...texts, between, far];
  const engine = newEngine();
  engine.apply([
    ...own,
    ...paths.filter((path) => !own.some((file) => file.path === path)).map((path) => ({ path, present: true as const })),
  ]);
  const edited = {
    path: lockOut.path,
    text: lockOut.text.replace(/^(\d+)\. Put your lock and tag on each point\.$/m, '$1. Wait for 1 min.'),
  };
  expect(edited.text).not.toBe(lockOut.text);
  engine.apply([edited]);
  const whole = checkLibrary(
    own.map((file) => (file.path === edited.path ? edited : file)),
    paths,
  );
  const said = (findings: typeof whole.findings): readonly string[] =>
    findings.filter(({ file }) => file === far.path).map(({ check, message }) => `${check}: ${message}`);
  expect(said(whole.findings).join('\n')).toMatch(/not locked/);
  expect(said(engine.report().findings)).toEqual(said(whole.findings));
});
