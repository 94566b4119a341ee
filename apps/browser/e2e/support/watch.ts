import type { BrowserContext } from 'playwright-core';

/** What must never happen, wherever a test leads. */
export interface Watch {
  /** Everything that happened and should not, in words. */
  readonly complaints: () => readonly string[];
  /** Complaints that fit are the subject of the test and do not count. */
  readonly allow: (pattern: RegExp) => void;
}

/** Watches all pages of a context for errors, for questions of the browser, and for requests to anywhere else. */
export function watch(context: BrowserContext, address: string): Watch {
  const found: string[] = [];
  const allowed: RegExp[] = [];
  const origin = new URL(address).origin;
  const isOwn = (url: string) => url.startsWith(`${origin}/`) || url.startsWith('blob:') || url.startsWith('data:');
  context.on('request', (request) => {
    if (!isOwn(request.url())) found.push(`a request to elsewhere: ${request.url()}`);
  });
  context.on('console', (message) => {
    if (message.type() === 'error') found.push(`an error in the console: ${message.text()}`);
  });
  context.on('weberror', (error) => found.push(`an error that nobody caught: ${error.error().stack ?? error.error()}`));
  context.on('dialog', (dialog) => {
    found.push(`a question of the browser: ${dialog.message()}`);
    void dialog.dismiss();
  });
  return {
    complaints: () => found.filter((text) => !allowed.some((pattern) => pattern.test(text))),
    allow: (pattern) => allowed.push(pattern),
  };
}
