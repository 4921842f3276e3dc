import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['@loomwright/source'] },
  ssr: { resolve: { conditions: ['@loomwright/source'] } },
  test: {
    include: ['packages/*/src/**/*.test.ts', 'tests/**/*.test.ts'],
    setupFiles: process.env['LOOPS'] === 'plain' ? ['tests/plain-loops.ts'] : [],
    testTimeout: 120_000,
  },
});
