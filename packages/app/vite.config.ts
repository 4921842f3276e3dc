/** The app is built into dist/; in development it asks the store's server for /api. */
import react from '@vitejs/plugin-react';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';

/** The service worker with the list of what was built, so that the app opens while the store of this machine is not running. */
function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const files = Object.keys(bundle).filter((file) => !file.endsWith('.map'));
      const print = createHash('sha256');
      for (const file of files.toSorted()) {
        const made = bundle[file];
        print.update(file).update(made === undefined ? '' : made.type === 'chunk' ? made.code : made.source);
      }
      const list = ['/', ...files.filter((file) => file !== 'index.html').map((file) => `/${file}`)];
      const source = readFileSync(new URL('./src/offline.js', import.meta.url), 'utf8')
        .replace("'VERSION'", JSON.stringify(`app-${print.digest('hex').slice(0, 12)}`))
        .replace('[/* FILES */]', JSON.stringify(list));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

export default defineConfig(({ mode }) => ({
  base: '/',
  plugins: [react(), ...(mode === 'pocket' ? [] : [offline()])],
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
    // The layout library is one file of 1.6 MB; it follows in a worker of its own.
    chunkSizeWarningLimit: 2000,
    rolldownOptions: {
      // The engine's modules do nothing by being imported: what the screens do not use of it stays in the worker.
      treeshake: { moduleSideEffects: (id: string) => !/packages\/engine\//.test(id) },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4817' } },
}));
