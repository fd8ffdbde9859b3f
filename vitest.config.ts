import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{unit,flow,print,published,app,tidy}/**/*.test.ts'],
    // The whole-library tests check hundreds of files in one test; a hang is still caught.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
