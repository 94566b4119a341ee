import type { WiringPlan } from './wiring.js';

export const amps = (current: number): string => `${current.toFixed(1)} A`;
export const microtesla = (field: number): string => `${(1e6 * field).toFixed(2)} microtesla`;
export const degrees = (angle: number): string => `${((180 * angle) / Math.PI).toFixed(1)} deg`;
const wireWords = ({ gauge, length, loss }: { gauge: number; length: number; loss: number }): string =>
  `AWG ${gauge}, ${length.toFixed(2)} m, ${loss.toFixed(2)} W lost`;

/** One sentence: loss, mass, compass. */
export function wiringFinding(plan: WiringPlan): string {
  const lost = [...plan.strings, ...plan.outputs].reduce((sum, { loss }) => sum + loss, 0);
  const wires = `the wires lose ${lost.toFixed(2)} W in full sun and weigh ${(1000 * plan.mass).toFixed(0)} g`;
  const worst = [...plan.compass].sort((a, b) => b.apart - a.apart)[0];
  if (worst === undefined) return `${wires}.`;
  return `${wires}; at "${worst.where}" they turn a compass by up to ${degrees(worst.pairedDeviation)} with out and return side by side, ${degrees(worst.apartDeviation)} with the return 100 mm away.`;
}

/**
 * The plan as the drawing `wiringPlan` wants it: words finished, plain data.
 * @param of.battery - lowest and highest voltage [V]
 */
export function wiringPicture(
  plan: WiringPlan,
  {
    aircraft,
    battery,
  }: {
    readonly aircraft: string;
    readonly battery: { readonly lowestVoltage: number; readonly highestVoltage: number };
  },
) {
  return {
    aircraft,
    strings: plan.strings.map((string) => ({
      name: string.name,
      cells: string.cells,
      parallel: string.parallel,
      cellsPerDiode: string.cellsPerDiode,
      rows: string.rows.join(', '),
      electric: `${amps(string.current)}, up to ${string.voltage.toFixed(1)} V`,
      wire: wireWords(string),
      connector: string.connector,
      ...(string.fuse === undefined ? {} : { fuse: `${string.fuse} A` }),
      converter: plan.outputs.findIndex(({ name }) => name === string.converter),
    })),
    converters: plan.outputs.map((output) => ({
      name: output.name,
      kind: output.topology,
      electric: `${amps(output.current)} out`,
      wire: wireWords(output),
      fuse: `${output.fuse} A`,
    })),
    ...(battery.highestVoltage > 0
      ? { battery: `battery ${battery.lowestVoltage.toFixed(0)} to ${battery.highestVoltage.toFixed(0)} V` }
      : {}),
    finding: wiringFinding(plan),
    order: plan.order,
    cautions: plan.cautions,
  };
}
