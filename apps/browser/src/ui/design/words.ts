import { fixed } from '../../core/decimal.js';
import { lengthWords, massWords, type Said } from '../../core/said.js';
import type { BalanceView, SkyView, StringView } from '../../core/view.js';

/** Balance points are said in mm from the datum and in per cent of the mean chord. */
export function placeWords(x: number, balance: BalanceView, preferences: Said): string {
  const share = (100 * (x - balance.meanChordStart)) / balance.meanChord;
  return `${lengthWords(x, preferences)} (${share.toFixed(0)} % of the mean chord)`;
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** Static margin with its spread, and what it means. */
export function marginWords({ staticMargin, staticMarginSigma }: BalanceView): string {
  const low = staticMargin - 1.64 * staticMarginSigma;
  const sign = `${percent(staticMargin)} ± ${percent(staticMarginSigma)} of the mean chord`;
  if (staticMargin <= 0) return `the static margin is ${sign}: unstable in pitch`;
  if (low <= 0) return `the static margin is ${sign}: within its spread it may be unstable`;
  return `the static margin is ${sign}`;
}

/** The balance in one or two sentences. */
export function balanceWords(balance: BalanceView, preferences: Said): string {
  const { balancePoint, range } = balance;
  const at = `It balances ${placeWords(balancePoint.x, balance, preferences)} aft of the datum`;
  const [front, rear] = [lengthWords(range.forward, preferences), lengthWords(range.aft, preferences)];
  const off = (metres: number) => lengthWords(Math.abs(metres), preferences);
  const where =
    range.aft <= range.forward
      ? 'no balance point both trims and is stable'
      : balancePoint.x > range.aft
        ? `${off(balancePoint.x - range.aft)} behind the allowed range of ${front} to ${rear}`
        : balancePoint.x < range.forward
          ? `${off(range.forward - balancePoint.x)} before the allowed range of ${front} to ${rear}`
          : `inside the allowed range of ${front} to ${rear}`;
  return `${at}, ${where}; ${marginWords(balance)}.`;
}

/** What two more cells would do to the balance. */
export function cellEffectWords(
  { mass, shift, batteryMove }: NonNullable<BalanceView['cellEffect']>,
  preferences: Said,
): string {
  const by = (metres: number) =>
    Math.abs(metres) < 0.0005
      ? undefined
      : `${lengthWords(Math.abs(metres), preferences)} ${metres > 0 ? 'aft' : 'forward'}`;
  const cells = `Two more cells on the first row, with film, would weigh ${massWords(mass, preferences)}`;
  const moved = by(shift);
  if (moved === undefined) return `${cells} and hardly move the balance point.`;
  const battery = batteryMove === undefined ? undefined : by(batteryMove);
  return `${cells} and move the balance point ${moved}${battery === undefined ? '' : `; the battery ${battery} makes up for it`}.`;
}

/** Where the battery should lie, and what is missing where it cannot. */
export function batteryWords(balance: BalanceView, preferences: Said): string {
  const { battery } = balance;
  if (battery === undefined) return 'There is no battery to balance with.';
  const { to, wanted, ballast, problem, x } = battery;
  const says = (metres: number) => lengthWords(metres, preferences);
  if (to === undefined) return problem === undefined ? 'The battery stays where it is.' : `${problem}.`;
  const by = to - x;
  const { balancePoint, range } = balance;
  const isInside = balancePoint.x >= range.forward && balancePoint.x <= range.aft;
  const move =
    Math.abs(by) < 0.0005
      ? `The battery is where it belongs, ${says(to)}`
      : `${isInside ? 'It may stay, as it balances inside the range; for the static margin aimed at, it' : 'The battery'} belongs at ${says(to)}: ${says(Math.abs(by))} ${by > 0 ? 'aft' : 'forward'}`;
  const limit =
    wanted !== undefined && Math.abs(wanted - to) > 0.0005
      ? `, as far as it goes; without the limits of its place it would be ${says(wanted)}`
      : '';
  const weight =
    ballast === undefined
      ? ''
      : `. Then ${massWords(ballast.mass, preferences)} of ballast at ${says(ballast.x)} does the rest`;
  return `${move}${limit}${weight}.`;
}

const volts = (value: number | undefined): string => (value === undefined ? '' : `${fixed(value, 1)} V`);

/** How a string meets its battery. */
export function stringWords({ name, cells, parallel, problem, remedy, figures }: StringView): string {
  const of = (key: string) => volts(figures[key]);
  const wired = `"${name}": ${cells} cells in series${parallel > 1 ? `, ${parallel} of them in parallel` : ''}`;
  if (figures.maximumPowerVoltageLowest === undefined) return `${wired}. ${problem ?? ''}. ${remedy ?? ''}`.trim();
  const span = `give ${of('maximumPowerVoltageLowest')} to ${of('maximumPowerVoltageHighest')} at their best, at most ${of('openCircuitVoltageHighest')} when cold and unloaded`;
  const window = `the converter takes ${of('windowEmptyLow')} to ${of('windowEmptyHigh')} with the battery empty, ${of('windowFullLow')} to ${of('windowFullHigh')} full`;
  const counts =
    figures.fewestCells === undefined || figures.mostCells === undefined
      ? ''
      : `; ${figures.fewestCells} to ${figures.mostCells} cells would fit`;
  return `${wired} ${span}; ${window}${counts}. ${problem === undefined ? 'It fits.' : `${problem}.`}`;
}

/** Lowest and highest terminal voltage under a sky [V]. */
export function voltageSpan({
  terminalVoltage,
}: Pick<SkyView, 'terminalVoltage'>): readonly [number, number] | undefined {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of terminalVoltage) {
    if (!(value > 0)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return low <= high ? [low, high] : undefined;
}
