import { fileURLToPath } from 'node:url';
import { createPageServer, listen } from '../../../../scripts/page-server.mjs';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export const builtPage = here('../../dist');
const examples = here('../../../../examples');

/** A running server of the page. */
export interface Site {
  /** With a slash at its end. */
  readonly address: string;
  readonly stop: () => Promise<void>;
}

/** The server of `npm start`, on a free port or on the one given. */
export async function startSite({ page = builtPage, port = 0 } = {}): Promise<Site> {
  const server = createPageServer({ page, examples });
  const used = await listen(server, port, 0);
  return {
    address: `http://127.0.0.1:${used}/`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
