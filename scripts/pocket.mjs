// `npm run pocket`: the app and the engine as one HTML file that works from a phone's storage, with no server and no network.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { root } from './ensure.mjs';

const app = join(root, 'packages/app');
const require = createRequire(join(app, 'package.json'));
const { build } = await import(require.resolve('vite').replace(/index\.cjs$/, 'dist/node/index.js'));

/** One script (and style sheet) of an entry, everything it imports inside. */
async function bundle(entry, format) {
  const { output } = [
    await build({
      root: app,
      configFile: join(app, 'vite.config.ts'),
      mode: 'pocket',
      logLevel: 'warn',
      build: {
        write: false,
        // Fonts into the style sheet; the layout library stands in the page once, as text.
        assetsInlineLimit: (file) => file.endsWith('.woff2'),
        cssCodeSplit: false,
        modulePreload: false,
        chunkSizeWarningLimit: 10_000,
        rolldownOptions: { input: join(app, 'src', entry), output: { format, codeSplitting: false } },
      },
    }),
  ].flat()[0];
  const script = output.filter((each) => each.type === 'chunk').map((each) => each.code);
  if (script.length !== 1) throw new Error(`${entry}: ${script.length} scripts instead of one`);
  const style = output.filter((each) => each.fileName.endsWith('.css')).map((each) => String(each.source));
  return { script: script[0], style: style.join('\n') };
}

/** Inside a script element its own end tag would end it. */
const inside = (code) => code.replace(/<\/(script)/gi, '<\\/$1').replace(/<!--/g, '<\\!--');

const engine = await bundle('pocket-engine.ts', 'iife');
const page = await bundle('pocket.ts', 'es');
const layout = readFileSync(require.resolve('elkjs/lib/elk-worker.min.js'), 'utf8');
const policy = [
  "default-src 'none'",
  "script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:",
  'worker-src blob:',
  "style-src 'unsafe-inline'",
  'font-src data:',
  'img-src data: blob:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const html = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="content-security-policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<meta name="color-scheme" content="light dark">
<title>Loomwright</title>
<link rel="icon" href="data:,">
<style>${page.style.replace(/<\/style/gi, '<\\/style')}</style>
</head>
<body>
<div id="app"></div>
<noscript>Loomwright computes in this page, so it needs scripts to be allowed. Nothing is loaded from elsewhere.</noscript>
<script type="text/plain" id="engine-code">${inside(engine.script)}</script>
<script type="text/plain" id="layout-code">${inside(layout)}</script>
<script type="module">${inside(page.script)}</script>
</body>
</html>
`;

const folder = join(root, 'dist');
mkdirSync(folder, { recursive: true });
const file = join(folder, 'loomwright-pocket.html');
writeFileSync(file, html);
const kB = (bytes) => `${Math.round(bytes / 1000).toLocaleString('en')} kB`;
const bytes = Buffer.byteLength(html);
console.log(`dist/loomwright-pocket.html: ${kB(bytes)} (${kB(gzipSync(html).length)} compressed)`);
console.log(
  `  engine ${kB(engine.script.length)}, layout ${kB(layout.length)}, app ${kB(page.script.length)}, style and fonts ${kB(page.style.length)}`,
);
