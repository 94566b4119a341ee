import { allowedDeviation, type CompassEffect, type WiringPlan } from './wiring.js';

export const amps = (current: number): string => `${current.toFixed(1)} A`;
export const microtesla = (field: number): string => `${(1e6 * field).toFixed(1)} microtesla`;
const degrees = (angle: number): string => `${((180 * angle) / Math.PI).toFixed(0)} deg`;
/** How far a compass is turned; a field stronger than the earth's turns it anywhere. */
export const turned = (angle: number): string => (angle >= Math.PI / 2 ? 'any way' : `up to ${degrees(angle)}`);
/** What keeps a compass true. */
const compassRemedy = ({ clearance, pairedDeviation }: CompassEffect): string =>
  pairedDeviation <= allowedDeviation
    ? 'it may stay where it is as long as out and return stay side by side'
    : `${(1000 * clearance).toFixed(0)} mm from the pairs it is ${degrees(allowedDeviation)}; twisted pairs hardly disturb it`;
const wireWords = ({ gauge, length, loss }: { gauge: number; length: number; loss: number }): string =>
  `AWG ${gauge}, ${length.toFixed(2)} m, ${loss.toFixed(2)} W lost`;

/** What one compass feels, in a sentence without its full stop. */
export const compassWords = (effect: CompassEffect): string =>
  `${effect.where}: ${microtesla(effect.paired)} turn it ${turned(effect.pairedDeviation)} with out and return side by side; ${microtesla(effect.apart)}, ${turned(effect.apartDeviation)} with the return 100 mm away; ${compassRemedy(effect)}`;

/** One sentence: loss, mass, compass. */
export function wiringFinding(plan: WiringPlan): string {
  const lost = [...plan.strings, ...plan.outputs].reduce((sum, { loss }) => sum + loss, 0);
  const wires = `the wires lose ${lost.toFixed(2)} W in full sun and weigh ${(1000 * plan.mass).toFixed(0)} g`;
  const worst = [...plan.compass].sort((a, b) => b.apart - a.apart)[0];
  if (worst === undefined) return `${wires}.`;
  return `${wires}; at "${worst.where}" they turn a compass ${turned(worst.pairedDeviation)} with out and return side by side, ${turned(worst.apartDeviation)} with the return 100 mm away; ${compassRemedy(worst)}.`;
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
