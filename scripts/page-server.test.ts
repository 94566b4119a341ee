import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPageServer, listen } from './page-server.mjs';

let base = '';
let server: Server;
let port = 0;

/** Sends the path as it is: fetch() would resolve the dots before they reach the server. */
const ask = (path: string, method = 'GET') =>
  new Promise<{ status: number; headers: Record<string, unknown>; body: string }>((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port, path, method }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (part: string) => {
        body += part;
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    asked.on('error', reject).end();
  });

beforeAll(async () => {
  base = mkdtempSync(join(tmpdir(), 'noonwing-page-'));
  for (const folder of ['page/assets', 'examples']) mkdirSync(join(base, folder), { recursive: true });
  writeFileSync(join(base, 'secret.txt'), 'secret');
  writeFileSync(join(base, 'page/index.html'), '<p>page</p>');
  writeFileSync(join(base, 'page/assets/main.js'), 'export {};');
  writeFileSync(join(base, 'page/.built-from'), 'hash');
  writeFileSync(join(base, 'examples/alondra.yaml'), 'noonwing: 1');
  symlinkSync(join(base, 'secret.txt'), join(base, 'page/link.txt'));
  server = createPageServer({ page: join(base, 'page'), examples: join(base, 'examples') });
  port = await listen(server, 0, 0);
});

afterAll(() => {
  server.close();
  rmSync(base, { recursive: true, force: true });
});

describe('page server', () => {
  it('gives the page, its script and the examples with their types and a strict policy', async () => {
    const page = await ask('/?a=1');
    expect(page).toMatchObject({ status: 200, body: '<p>page</p>' });
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.headers['content-security-policy']).not.toContain('unsafe');
    expect((await ask('/assets/main.js')).headers['content-type']).toBe('text/javascript; charset=utf-8');
    const example = await ask('/examples/alondra.yaml');
    expect(example).toMatchObject({ status: 200, body: 'noonwing: 1' });
    expect(example.headers['content-type']).toBe('text/yaml; charset=utf-8');
  });

  it('answers HEAD without a body and refuses to change anything', async () => {
    expect(await ask('/', 'HEAD')).toMatchObject({ status: 200, body: '' });
    for (const method of ['POST', 'PUT', 'DELETE']) expect((await ask('/', method)).status).toBe(405);
  });

  for (const path of [
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/examples/../secret.txt',
    '/examples/..%2f..%2fsecret.txt',
    '//etc/passwd',
    '/link.txt',
    '/.built-from',
    '/%00',
    '/%e0%a4%a',
    '/assets/',
    '/nowhere.js',
  ]) {
    it(`has nothing at ${path}`, async () => {
      const answer = await ask(path);
      expect(answer.status).toBe(404);
      expect(answer.body).not.toContain('secret');
    });
  }

  it('takes the next port where one is in use, and says where it listens', async () => {
    const second = createPageServer({ page: base, examples: base });
    const used = await listen(second, port, 20);
    expect(used).toBeGreaterThan(port);
    second.close();
    const third = createPageServer({ page: base, examples: base });
    await expect(listen(third, port, 0)).rejects.toThrow('EADDRINUSE');
  });
});
