import type { Air } from '@noonwing/engine/air';
import {
  type ControlEfficiency,
  type ControlLayers,
  controlEfficiency,
  countedDeflection,
  deflectionThatCounts,
} from '@noonwing/engine/section';
import type { AircraftModel } from './aircraft.js';

/** How well a pitch control turns the flow. */
export interface PitchControl {
  readonly name: string;
  /** On its mean chord at the airspeed flown. */
  readonly reynolds: number;
  readonly efficiency: ControlEfficiency;
  /** Whether its loss was computed with its deflected sections; else it is that of a fit to other sections. */
  readonly computed: boolean;
  /** Open gap at its hinge [m]. */
  readonly gap: number;
  /** Deflection that level flight takes, trailing edge down positive, and its travel [rad]; absent where none trims. */
  readonly trim?: number;
  /** Ends of the band in which it lies nine times in ten, because nobody knows better what the control turns [rad]. */
  readonly trimBand?: { readonly low: number; readonly high: number };
  readonly up: number;
  readonly down: number;
}

/**
 * Pitch controls of an aircraft at an airspeed.
 * trim - deflection in level flight [rad], where it is known
 */
export function pitchControlsOf(
  { airframe, complete }: AircraftModel,
  air: Air,
  airspeed: number,
  trim: number | undefined,
): readonly PitchControl[] {
  if (airframe === undefined) return [];
  const described = complete.surfaces.flatMap(({ controls }) => controls);
  return airframe.wing.controls.flatMap((layers) => {
    const { name, chord } = layers;
    const control = described.find((one) => one.name === name);
    if (control === undefined || !airframe.aircraft.pitchControls.includes(name)) return [];
    const reynolds = (airspeed * chord) / air.kinematicViscosity;
    const efficiency = controlEfficiency(layers, { reynolds, deflection: trim ?? 0, gap: control.gap.value / chord });
    return {
      name,
      reynolds,
      efficiency,
      computed: layers.turning !== undefined,
      gap: control.gap.value,
      ...(trim === undefined ? {} : { trim, trimBand: trimBand(layers, trim, reynolds, efficiency) }),
      up: control.up.value,
      down: control.down.value,
    };
  });
}

/** 5 and 95 % of a normal distribution. */
const ninety = 1.645;

/** Deflections that do what the trim does where the control turns more or less than expected; factors are log-normal. */
function trimBand(layers: ControlLayers, trim: number, reynolds: number, { value, spread }: ControlEfficiency) {
  const counted = countedDeflection(layers, trim, reynolds);
  const factor = Math.exp((ninety * spread) / value);
  const ends = [counted / factor, counted * factor].map((at) => deflectionThatCounts(layers, at, reynolds));
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

const share = (value: number): string => `${(100 * value).toFixed(0)} %`;

/** Angle in words: 3.1 deg up. */
const turned = (angle: number): string =>
  `${Math.abs((180 * angle) / Math.PI).toFixed(1)} deg ${angle < 0 ? 'up' : 'down'}`;

/** Without its direction: 3.1 deg. */
const angle = (value: number): string => `${Math.abs((180 * value) / Math.PI).toFixed(1)} deg`;

/** What the layers ahead of the hinge cost, and where that is known from. */
function layerWords({ efficiency: { lostToLayer }, computed }: PitchControl): string {
  const from = computed ? 'computed with this section deflected' : 'by a fit to other sections';
  return lostToLayer > 0.005
    ? `The slow layer ahead of the hinge costs ${share(lostToLayer)} (${from}; less where a thread or tape edge ahead of the hinge makes it turbulent)`
    : `The layer ahead of the hinge costs nothing (${from})`;
}

function trimWords({ trim, trimBand: band, up, down }: PitchControl): string {
  if (trim === undefined || band === undefined) return '';
  const travel = trim < 0 ? -up : down;
  const [near, far] = trim < 0 ? [band.high, band.low] : [band.low, band.high];
  const enough = Math.abs(far) > Math.abs(travel) ? ', which may not suffice' : '';
  return ` Level flight takes ${turned(trim)} (${angle(near)} to ${angle(far)}) of ${turned(travel)}${enough}.`;
}

/** What a pitch control turns, what it loses to what, and what level flight takes of its travel. */
export function pitchControlWords(control: PitchControl): string {
  const { name, reynolds, efficiency, gap } = control;
  const { value, spread, lostToGap } = efficiency;
  const through =
    gap > 0
      ? `the open gap of ${(1000 * gap).toFixed(1)} mm at its hinge costs ${share(lostToGap)}`
      : 'its hinge line counts as closed';
  return `${name}: turns the flow by ${value.toFixed(2)} ± ${spread.toFixed(2)} of what theory gives, at a Reynolds number of ${(reynolds / 1000).toFixed(0)} thousand. ${layerWords(control)}, ${through}.${trimWords(control)}`;
}
