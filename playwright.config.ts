/** Browser tests with the system's own Chromium. `npm run e2e`; set CHROMIUM where it lies elsewhere. */
import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: 'e2e',
  reporter: 'list',
  workers: 1,
  // A busy machine may be late once; what fails three times is wrong.
  retries: process.env['CI'] === undefined ? 0 : 2,
  timeout: 180_000,
  expect: { timeout: 60_000 },
  globalSetup: './e2e/support/build.ts',
  use: {
    launchOptions: {
      executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
});
