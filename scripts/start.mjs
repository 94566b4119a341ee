/**
 * `npm start`: prints the day's verdict for the demo aircraft, then serves the page that shows the same verdict.
 * `npm start -- --port 9000` asks for another port.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { createPageServer, listen } from './page-server.mjs';
import { root, runNode, tools } from './tools.mjs';

const usualPort = 8137;
const page = join(root, 'apps/browser/dist');

/** @param {string | undefined} text */
function readPort(text) {
  if (text === undefined) return undefined;
  const port = Number(text);
  return Number.isInteger(port) && port >= 0 && port <= 65_535 ? port : Number.NaN;
}

/** @param {number | undefined} port */
async function servePage(port) {
  const server = createPageServer({ page, examples: join(root, 'examples') });
  const used = await listen(server, port ?? usualPort, port === undefined ? 50 : 0);
  console.log(`\nThe page with the same verdict: http://127.0.0.1:${used}/   (Ctrl+C ends)`);
  const end = () => {
    server.close(() => process.exit(0));
    server.closeAllConnections();
  };
  process.on('SIGINT', end);
  process.on('SIGTERM', end);
}

async function start() {
  const { values } = parseArgs({ options: { port: { type: 'string' } }, strict: true });
  const port = readPort(values.port);
  if (Number.isNaN(port)) {
    console.error(`--port needs a whole number from 0 to 65535; found "${values.port}".`);
    return 2;
  }
  const code = await runNode(tools.noonwing, ['day', 'examples/alondra.yaml', '--plan', 'examples/alondra.day.yaml']);
  if (code !== 0) console.error(`\nThe verdict ended with code ${code}; the lines above say why.`);
  if (!existsSync(join(page, 'index.html'))) {
    console.error('\nThe page is not built: run "npm run build", which says why if it cannot.');
    return 1;
  }
  try {
    await servePage(port);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    console.error(`\nThe page cannot be served: ${reason}. Another port may be free: npm start -- --port 0`);
    return 1;
  }
  return 0;
}

process.exitCode = await start();
