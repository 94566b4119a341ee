import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { root, tools } from '../scripts/tools.mjs';
import { atMost, measure, wallClock } from './measure.mjs';

const example = join(root, 'examples/alondra.yaml');
const day = ['day', example, '--plan', join(root, 'examples/alondra.day.yaml')];

/**
 * @param {readonly string[]} parameters of node
 */
function run(parameters) {
  const result = spawnSync(process.execPath, parameters, { cwd: root, encoding: 'utf8' });
  if (result.status !== 0)
    throw new Error(`node ${parameters.join(' ')} ended with ${result.status}:\n${result.stderr}`);
  return result.stdout;
}

/** The whole process of a verdict for one design and day, started cold. */
export default function command() {
  if (!existsSync(example)) return [];
  // On Windows the file in .bin is a command script.
  const program = process.platform === 'win32' ? tools.noonwing : join(root, 'node_modules/.bin/noonwing');
  const cold = measure(() => run([program, ...day]), { seconds: 3, least: 5, watch: wallClock }).median;
  const bare = measure(() => run(['--eval', '0']), { seconds: 0.5, least: 5, watch: wallClock }).median;
  return [
    atMost({
      name: 'cold verdict for one design and day, whole process',
      value: cold,
      unit: 's',
      reference: { name: 'starting node with nothing to do', value: bare, unit: 's', ratio: bare / cold },
      budget: 1,
    }),
  ];
}
