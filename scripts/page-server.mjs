/**
 * A small read-only web server for the built page and the example files. It answers on this machine only.
 */
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';

/** @type {Record<string, string>} */
const mediaTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.yaml': 'text/yaml; charset=utf-8',
  '.yml': 'text/yaml; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
};

/** Nothing from elsewhere may load or be called, so that a design never leaves the machine. */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const headers = {
  'Content-Security-Policy': contentSecurityPolicy,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cache-Control': 'no-cache',
};

/**
 * The file that a request path names, or undefined where it names none inside the folder: no way out by `..`,
 * by an encoded separator or by a symbolic link, and no hidden file.
 * @param {string} folder
 * @param {string} path starts with '/', still percent-encoded
 */
export async function fileFor(folder, path) {
  let decoded = '';
  try {
    decoded = decodeURIComponent(path);
  } catch {
    return undefined;
  }
  if (decoded.includes('\0') || decoded.includes('\\')) return undefined;
  const parts = decoded.split('/').filter((part) => part !== '');
  if (parts.some((part) => part.startsWith('.') || part.includes(':'))) return undefined;
  try {
    const base = await realpath(folder);
    let file = await realpath(join(base, ...parts));
    if ((await stat(file)).isDirectory()) file = await realpath(join(file, 'index.html'));
    const inside = file.startsWith(base + sep);
    return inside && (await stat(file)).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}

/**
 * @param {{ page: string, examples: string }} folders the built page, and the files shown below /examples/
 */
export function createPageServer({ page, examples }) {
  return createServer(async (request, response) => {
    const refuse = (/** @type {number} */ status, /** @type {string} */ message) => {
      response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8', Allow: 'GET, HEAD' });
      response.end(`${message}\n`);
    };
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405, 'This server only gives files out.');
    const path = (request.url ?? '/').split(/[?#]/, 1)[0] ?? '/';
    const file = path.startsWith('/examples/')
      ? await fileFor(examples, path.slice('/examples'.length))
      : await fileFor(page, path);
    if (file === undefined) return refuse(404, 'There is no such file here.');
    const { size } = await stat(file);
    const type = mediaTypes[extname(file).toLowerCase()] ?? 'application/octet-stream';
    response.writeHead(200, { ...headers, 'Content-Type': type, 'Content-Length': size });
    if (request.method === 'HEAD') return response.end();
    createReadStream(file)
      .on('error', () => response.destroy())
      .pipe(response);
  });
}

/**
 * Starts to listen on this machine only.
 * @param {import('node:http').Server} server
 * @param {number} port
 * @param {number} further how many following ports to try where one is taken
 * @returns {Promise<number>} the port in use
 */
export function listen(server, port, further) {
  return new Promise((resolve, reject) => {
    const attempt = (/** @type {number} */ candidate) => {
      server.once('error', (/** @type {NodeJS.ErrnoException} */ error) => {
        const taken = error.code === 'EADDRINUSE' || error.code === 'EACCES';
        if (taken && candidate < port + further) attempt(candidate + 1);
        else reject(error);
      });
      server.listen(candidate, '127.0.0.1', () => {
        server.removeAllListeners('error');
        const address = server.address();
        resolve(address !== null && typeof address === 'object' ? address.port : candidate);
      });
    };
    attempt(port);
  });
}
