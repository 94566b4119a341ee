import { prepare } from '../../../../scripts/prepare.mjs';

/** Before the tests in a browser: the page that they open is the one of these sources. */
export default async function setup(): Promise<void> {
  if (!(await prepare({ force: false, builds: true })))
    throw new Error('The page cannot be built; the lines above say why.');
}
