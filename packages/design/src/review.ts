import { formatQuantity } from '@noonwing/quantities';
import type { CompleteAircraft, CompleteCell, CompleteString } from './complete/index.js';
import { type FileDocument, locate } from './document/document.js';
import type { Message, Path, Severity } from './document/message.js';

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

function reviewString(aircraft: CompleteAircraft, string: CompleteString): readonly Finding[] {
  const { array, battery } = aircraft;
  const converter = array?.converters.find((candidate) => candidate.name === string.converter);
  if (array === undefined || battery === undefined || converter === undefined) return [];
  const { coldOpen, hotPower, hotOpen } = stringVoltages(string, array.cell);
  const empty = battery.series * battery.emptyVoltage.value;
  const full = battery.series * battery.fullVoltage.value;
  const perCell = hotPower / string.cellsInSeries;
  const path: Path = ['array', 'strings', string.name];
  const findings: Finding[] = [];
  if (converter.topology !== 'boost' && converter.topology !== 'buck-boost' && hotOpen <= empty) {
    const needed = Math.ceil((1.05 * full) / perCell);
    const hint = `use a boost converter, or at least ${needed} cells in series`;
    const found = `${string.cellsInSeries} cells, ${volts(hotPower)} when hot`;
    findings.push({
      path,
      severity: 'error',
      found,
      expected: `more than the battery, ${volts(empty)} to ${volts(full)}: this string never charges it`,
      hint,
    });
  } else if (converter.topology === 'buck' && hotPower < full) {
    const hint = `use a buck-boost converter, or at least ${Math.ceil((1.05 * full) / perCell)} cells in series`;
    findings.push({
      path,
      severity: 'warning',
      found: `${volts(hotPower)} at maximum power when hot`,
      expected: `more than the full battery, ${volts(full)}, all day`,
      hint,
    });
  } else if (converter.topology === 'boost' && coldOpen > empty) {
    const most = Math.floor(empty / (coldOpen / string.cellsInSeries));
    const hint = `at most ${most} cells in series, a battery with more cells in series, or a buck-boost converter`;
    findings.push({
      path,
      severity: 'warning',
      found: `${volts(coldOpen)} open and cold`,
      expected: `less than the empty battery, ${volts(empty)}: above it a boost converter cannot hold the current back`,
      hint,
    });
  }
  if (coldOpen > converter.inputVoltageHigh.value) {
    const expected = `at most what its converter bears, ${volts(converter.inputVoltageHigh.value)}`;
    findings.push({
      path,
      severity: 'error',
      found: `${volts(coldOpen)} open and cold`,
      expected,
      hint: 'fewer cells in series, or another converter',
    });
  }
  if (hotPower < converter.inputVoltageLow.value) {
    const expected = `at least what its converter starts with, ${volts(converter.inputVoltageLow.value)}`;
    findings.push({
      path,
      severity: 'error',
      found: `${volts(hotPower)} at maximum power when hot`,
      expected,
      hint: 'more cells in series, or another converter',
    });
  }
  return findings;
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
