// A server of its own for one test: node serve.mjs FOLDER PORT; prints its address.
import { startServer } from '../../packages/server/dist/index.js';

const [folder, port] = process.argv.slice(2);
const running = await startServer({ folder, port: Number(port) });
console.log(running.url);
process.once('SIGTERM', () => void running.stop().then(() => process.exit(0)));
