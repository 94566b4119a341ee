import { backContactCell } from '../array/index.js';
import type { Relation } from '../relation.js';
import { cloudEdgeBurst } from './burst.js';

const ranges: Readonly<Record<string, readonly [number, number]>> = {
  cells: [1, 1000],
  parallel: [1, 100],
  temperature: [220, 350],
  inputRating: [1, 1000],
  fuse: [0.1, 1000],
};

const burstRelation: Relation = {
  topic: 'cloud-edge',
  title: 'Burst of light at a cloud edge on cold cells (125 mm back-contact), against converter and fuse',
  inputs: [
    { key: 'cells', kind: 'count', help: 'in series', default: 16 },
    { key: 'parallel', kind: 'count', help: 'strings side by side', default: 1 },
    { key: 'temperature', kind: 'temperature', help: 'of the cells', default: 278.15 },
    { key: 'inputRating', kind: 'voltage', help: 'that the input of the converter bears', default: 24 },
    { key: 'fuse', kind: 'current', help: 'rating of the fuse at the array', default: 10 },
  ],
  outputs: [
    { key: 'openCircuit', kind: 'voltage', help: 'of the open string' },
    { key: 'shortCircuit', kind: 'current', help: 'of all strings together' },
    { key: 'power', kind: 'power', help: 'greatest power then' },
    { key: 'voltageMargin', kind: 'ratio', help: 'rating of the input over the open voltage, less 1' },
    { key: 'fuseMargin', kind: 'ratio', help: 'rating of the fuse over the short-circuit current, less 1' },
  ],
  compute: (values) => {
    for (const [key, [low, high]] of Object.entries(ranges)) {
      const value = Number(values[key]);
      if (!(value >= low && value <= high)) {
        return { reason: `${key} is outside its range`, remedy: `give ${key} between ${low} and ${high} in SI units` };
      }
    }
    const [cells, parallel] = [Math.round(Number(values.cells)), Math.round(Number(values.parallel))];
    const report = cloudEdgeBurst(
      [{ cell: backContactCell, cells, parallel, temperature: Number(values.temperature) }],
      {},
    );
    return {
      openCircuit: report.openCircuitVoltage,
      shortCircuit: report.shortCircuitCurrent,
      power: report.power,
      voltageMargin: Number(values.inputRating) / report.openCircuitVoltage - 1,
      fuseMargin: Number(values.fuse) / report.shortCircuitCurrent - 1,
    };
  },
};

/** Relations of the bus in seconds. */
export const busRelations: readonly Relation[] = [burstRelation];
