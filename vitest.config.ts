import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{unit,flow,print,published,app,tidy}/**/*.test.ts'],
    // The whole-library tests check hundreds of files in one test; a hang is still caught.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // What a page shows in the end is waited for as long as a user would; a second is little on a busy machine.
    expect: { poll: { timeout: 20_000 } },
    // On a busy machine a page may be late. Only what was waited for in vain is tried once more, and `npm test` names each such test.
    retry: { count: 1, condition: /Timeout \d+ms exceeded/ },
    // Two at least: on a machine of two cores the standard is one, and the suite takes twice as long.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
