import { formatQuantity } from '@noonwing/quantities';
import type {
  CompleteAircraft,
  CompleteBattery,
  CompleteCell,
  CompleteConverter,
  CompleteString,
} from './complete/index.js';
import { type FileDocument, locate } from './document/document.js';
import type { Message, Path, Severity } from './document/message.js';
import type { Topology } from './library/converters.js';

/** Coldest and hottest cell that a string must work with [K difference to 25 degC]: frost at dawn, noon on the ground. */
const COLD = -30;
const HOT = 35;

interface Finding {
  readonly path: Path;
  readonly severity: Severity;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

const volts = (value: number): string => formatQuantity({ value }, 'voltage', { unit: 'V', digits: 3 });

/** Voltages of a string between its coldest and hottest state; the coefficient of open circuit serves for both [V]. */
function stringVoltages(string: CompleteString, cell: CompleteCell) {
  const at = (voltage: number, warmer: number) =>
    string.cellsInSeries * (voltage + warmer * cell.voltageCoefficient.value);
  return {
    coldOpen: at(cell.openCircuitVoltage.value, COLD),
    hotPower: at(cell.maximumPowerVoltage.value, HOT),
    hotOpen: at(cell.openCircuitVoltage.value, HOT),
  };
}

type Voltages = ReturnType<typeof stringVoltages>;
type Told = Omit<Finding, 'path'>;

/** String against battery by the topology of its converter; undefined where they go together. */
function topologyFinding(
  string: CompleteString,
  topology: Topology,
  v: Voltages,
  battery: CompleteBattery,
): Told | undefined {
  const empty = battery.series * battery.emptyVoltage.value;
  const full = battery.series * battery.fullVoltage.value;
  const enough = Math.ceil((1.05 * full * string.cellsInSeries) / v.hotPower);
  if ((topology === 'buck' || topology === 'direct') && v.hotOpen <= empty) {
    const found = `${string.cellsInSeries} cells, ${volts(v.hotPower)} when hot`;
    const expected = `more than the battery, ${volts(empty)} to ${volts(full)}: this string never charges it`;
    return { severity: 'error', found, expected, hint: `use a boost converter, or at least ${enough} cells in series` };
  }
  if (topology === 'buck' && v.hotPower < full) {
    const found = `${volts(v.hotPower)} at maximum power when hot`;
    const expected = `more than the full battery, ${volts(full)}, all day`;
    return {
      severity: 'warning',
      found,
      expected,
      hint: `use a buck-boost converter, or at least ${enough} cells in series`,
    };
  }
  if (topology === 'boost' && v.coldOpen > empty) {
    const most = Math.floor((empty * string.cellsInSeries) / v.coldOpen);
    const expected = `less than the empty battery, ${volts(empty)}: above it a boost converter cannot hold the current back`;
    const hint = `at most ${most} cells in series, a battery with more cells in series, or a buck-boost converter`;
    return { severity: 'warning', found: `${volts(v.coldOpen)} open and cold`, expected, hint };
  }
  return undefined;
}

/** String against the input limits of its converter. */
function limitFindings(v: Voltages, converter: CompleteConverter): readonly Told[] {
  const findings: Told[] = [];
  const [low, high] = [converter.inputVoltageLow.value, converter.inputVoltageHigh.value];
  if (v.coldOpen > high) {
    const expected = `at most what its converter bears, ${volts(high)}`;
    const hint = 'fewer cells in series, or another converter';
    findings.push({ severity: 'error', found: `${volts(v.coldOpen)} open and cold`, expected, hint });
  }
  if (v.hotPower < low) {
    const expected = `at least what its converter starts with, ${volts(low)}`;
    const hint = 'more cells in series, or another converter';
    findings.push({ severity: 'error', found: `${volts(v.hotPower)} at maximum power when hot`, expected, hint });
  }
  return findings;
}

function reviewString(aircraft: CompleteAircraft, string: CompleteString): readonly Finding[] {
  const { array, battery } = aircraft;
  const converter = array?.converters.find((candidate) => candidate.name === string.converter);
  if (array === undefined || battery === undefined || converter === undefined) return [];
  const v = stringVoltages(string, array.cell);
  const topology = topologyFinding(string, converter.topology, v, battery);
  const told = [...(topology === undefined ? [] : [topology]), ...limitFindings(v, converter)];
  return told.map((finding) => ({ ...finding, path: ['array', 'strings', string.name] }));
}

/** Full throttle against what the pack gives: a pack that falls below its empty voltage at once, or beyond its limit. */
function reviewBattery({ battery, drive }: CompleteAircraft): readonly Finding[] {
  if (battery === undefined || drive === undefined) return [];
  const most = drive.motor.count * drive.motor.currentLimit.value;
  const rest =
    battery.series * (0.5 * (battery.fullVoltage.value + battery.emptyVoltage.value) - battery.emptyVoltage.value);
  const gives = rest / battery.resistance.value;
  const amperes = (value: number) => formatQuantity({ value }, 'current', { unit: 'A', digits: 2 });
  if (gives < 0.25 * most) {
    return [
      {
        path: ['battery'],
        severity: 'warning',
        found: `a pack that falls to its empty voltage at ${amperes(gives)}`,
        expected: `enough for a motor that may draw ${amperes(most)}`,
        hint: 'more cells in parallel, or a smaller motor or propeller',
      },
    ];
  }
  return [];
}

/**
 * What does not go together in a completed design, before anything is computed: strings against converters and battery,
 * motor against battery. Each finding is placed where the part stands in the file.
 */
export function reviewDesign(aircraft: CompleteAircraft, document: FileDocument): readonly Message[] {
  const findings = [
    ...(aircraft.array?.strings ?? []).flatMap((string) => reviewString(aircraft, string)),
    ...reviewBattery(aircraft),
  ];
  return findings.map(({ path, severity, found, expected, hint }) => {
    const place = locate(document, path);
    return { severity, line: place.line, column: place.column, path: place.path, found, expected, hint };
  });
}
