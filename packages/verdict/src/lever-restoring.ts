import { type MeasuredRecord, suitableTopology } from '@noonwing/design';
import { placeForBalance, sumMass } from '@noonwing/engine/balance';
import { type AircraftModel, recordOf } from './aircraft.js';
import type { BalanceReport } from './balance-report.js';
import type { Verdict } from './central.js';
import type { Edit } from './lever-edits.js';
import { stringReports } from './string-report.js';

const millimetres = (metres: number): string => `${Math.round(metres * 1e4) / 10} mm`;
const grams = (kilograms: number): string => `${Math.round(kilograms * 1e4) / 10} g`;

/** A string that left the range of its converter gets a converter of a topology that serves it. */
export function stringEdits(result: Verdict): readonly Edit[] {
  const { model, plan } = result.prepared;
  const { array, battery } = model.complete;
  if (array === undefined || model.array === undefined) return [];
  const reports = stringReports(model, { coldest: plan.nightTemperature.value, hottest: plan.temperature.value });
  return reports.flatMap(({ name, cells, fit }) => {
    const string = array.strings.find((candidate) => candidate.name === name);
    const converter = array.converters.find((candidate) => candidate.name === string?.converter);
    if (fit.ok || converter === undefined) return [];
    const topology = suitableTopology(cells, array.cell, battery);
    if (topology === converter.topology) return [];
    return [
      {
        path: `array.converters.${converter.name}.topology`,
        text: topology,
        why: `${cells} cells in series suit this battery only so`,
      },
    ];
  });
}

/**
 * A stated or weighed mass and a measured balance point hold for the aircraft before the change: both take over what
 * the change adds, else a lever would seem to weigh nothing.
 * @param written - records as the file has them, for their places in it
 */
export function weighingEdits(
  before: AircraftModel,
  after: AircraftModel,
  written: readonly MeasuredRecord[],
): readonly Edit[] {
  const { complete, balance } = before;
  if (balance === undefined || after.balance === undefined) return [];
  const sums = { before: sumOf(before), after: sumOf(after) };
  const added = sums.after.mass - sums.before.mass;
  const moment = sums.after.mass * sums.after.x - sums.before.mass * sums.before.x;
  if (Math.abs(added) < 5e-5 && Math.abs(moment) < 5e-7) return [];
  const mass = balance.mass + added;
  const edits: Edit[] = [];
  const weighed = recordOf(complete.measured, 'mass');
  const spread = (sigma: number | undefined, text: (value: number) => string) =>
    sigma === undefined ? '' : ` ± ${text(sigma)}`;
  // What was only moved weighs what it did.
  const isHeavier = Math.abs(added) >= 5e-5;
  if (isHeavier && weighed !== undefined) {
    const text = `${grams(mass)}${spread(weighed.mass.sigma, grams)}`;
    edits.push({ path: `${pathOf(written, 'mass')}.mass`, text, why: 'the weighed mass and the change' });
  } else if (isHeavier && complete.allUpMass !== undefined) {
    const text = `${grams(mass)}${spread(complete.allUpMass.sigma, grams)}`;
    edits.push({ path: 'all up mass', text, why: 'the stated mass and the change' });
  }
  const point = recordOf(complete.measured, 'balance point');
  if (point !== undefined) {
    const path = pathOf(written, 'balance point');
    const why = 'the measured balance point, moved by the change';
    const x = (balance.mass * balance.x + moment) / mass;
    edits.push({ path: `${path}.x`, text: `${millimetres(x)}${spread(point.x.sigma, millimetres)}`, why });
    const battery = after.complete.battery?.x.value;
    if (battery !== undefined) edits.push({ path: `${path}.battery x`, text: millimetres(battery), why });
  }
  return edits;
}

const sumOf = ({ masses }: AircraftModel) => sumMass(masses.items, masses.growth);

/** Path of the last record of a kind that is in use, counted from 1 as in messages. */
function pathOf(written: readonly MeasuredRecord[], what: MeasuredRecord['what']): string {
  const index = written.findLastIndex((record) => record.what === what && record.use !== false);
  return `measured[${index + 1}]`;
}

/** Difference of the balance point below which the static margin counts as restored [m]. */
const closeEnough = 0.3e-3;

/**
 * Moves the battery so that the static margin is what it was before the lever; ballast makes up what its span does not
 * give. The neutral point moves a little with the trim, so that a second pass may be needed.
 * @returns no edits where nothing is to be restored; undefined where neither battery nor ballast can do it
 */
export function balanceEdits(result: Verdict, before: BalanceReport | undefined): readonly Edit[] | undefined {
  const { balance: now, prepared } = result;
  const { battery, masses } = prepared.model.complete;
  if (before === undefined || now === undefined) return [];
  const target = now.neutralPoint - before.staticMargin * now.meanChord;
  if (Math.abs(target - now.sum.x) < closeEnough) return [];
  if (battery === undefined) return undefined;
  const stations = now.beam.loads.map(({ x }) => x);
  const span = { from: Math.min(...stations), to: Math.max(...stations) };
  const allowed = { from: battery.movesFrom?.value ?? span.from, to: battery.movesTo?.value ?? span.to };
  const movable = { name: 'battery', mass: battery.mass.value, x: battery.x.value };
  const placed = placeForBalance({ mass: now.sum.mass, x: now.sum.x }, movable, target, allowed, span);
  if (!placed.ok) return undefined;
  const { x, ballast } = placed.value;
  const why = 'restores the static margin';
  const edits: Edit[] = [{ path: 'battery.x', text: millimetres(x), why }];
  if (ballast !== undefined && ballast.mass > 1e-4) {
    const name = ballast.x <= target ? 'balance ballast ahead' : 'balance ballast behind';
    const there = masses.find((mass) => mass.name === name)?.mass.value ?? 0;
    edits.push(
      { path: `masses.${name}.mass`, text: `${grams(there + ballast.mass)} weighed`, why },
      { path: `masses.${name}.x`, text: millimetres(ballast.x), why },
      { path: `masses.${name}.ballast`, text: 'yes', why },
    );
  }
  return edits;
}
