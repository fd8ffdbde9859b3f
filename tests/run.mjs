/**
 * `npm test`: set-up, types, form, then every test. Prints one last line, "N passed, N failed", and exits by it. With arguments it
 * runs only the tests whose paths match them. Plain Node, since packages may not be there yet.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { buildApp, root, setUp } from '../cli/setup.mjs';

await setUp();
const filters = process.argv.slice(2);
let passed = 0;
let failed = 0;

if (filters.length === 0) {
  stage('types', ['node_modules/typescript/bin/tsc', '-p', '.']);
  // The page alone knows a browser's types, so that nothing else comes to lean on them.
  stage('types of the page', ['node_modules/typescript/bin/tsc', '-p', 'renderer']);
  stage('lint and format', ['node_modules/@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', '--colors=off', '.']);
}
// Once, before two test files want it at the same time.
if (filters.length === 0 || filters.some((one) => one.includes('app'))) await buildApp();
tests();
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;

function stage(name, args) {
  const ok = node(args).status === 0;
  console.log(`${ok ? 'ok    ' : 'FAILED'} ${name}`);
  if (ok) passed += 1;
  else failed += 1;
}

function tests() {
  const folder = mkdtempSync(join(tmpdir(), 'handsclear-test-'));
  const file = join(folder, 'result.json');
  const run = node([
    'node_modules/vitest/vitest.mjs',
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
    ...filters,
  ]);
  try {
    const result = JSON.parse(readFileSync(file, 'utf8'));
    // A file that cannot be loaded holds no test, but is a failure all the same.
    const broken = result.testResults.filter(
      (suite) => suite.status === 'failed' && suite.assertionResults.every((one) => one.status !== 'failed'),
    );
    // What failed at its first try and passed at its second is told, so that nobody takes it for sound.
    for (const { name, assertionResults } of result.testResults)
      for (const { status, fullName, failureMessages } of assertionResults)
        if (status === 'passed' && failureMessages.length > 0)
          console.log(`passed at the second try: ${relative(root, name)}: ${fullName}\n  at first: ${failureMessages[0].split('\n')[0]}`);
    passed += result.numPassedTests;
    failed += result.numFailedTests + broken.length;
    if (run.status !== 0 && failed === 0) failed += 1;
  } catch {
    console.log('FAILED the test run left no result');
    failed += 1;
  }
  rmSync(folder, { recursive: true, force: true });
}

function node(args) {
  return spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
}
