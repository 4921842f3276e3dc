/** The app is built into dist/; in development it asks the store's server for /api. */
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig(({ mode }) => ({
  base: './',
  plugins: [react()],
  resolve: {
    conditions: [
      '@loomwright/source',
      'module',
      'browser',
      mode === 'production' ? 'production' : 'development',
    ],
  },
  worker: { format: 'es' },
  build: {
    target: 'es2023',
    // A font inside a style sheet would be against the content policy of the server.
    assetsInlineLimit: 0,
    rolldownOptions: {
      // The engine's modules do nothing by being imported: what the screens do not use of it stays in the worker.
      treeshake: { moduleSideEffects: (id: string) => !/packages\/engine\//.test(id) },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4817' } },
}));
