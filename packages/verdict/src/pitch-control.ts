import type { Air } from '@noonwing/engine/air';
import { type FlapEfficiency, flapEfficiency } from '@noonwing/engine/section';
import type { AircraftModel } from './aircraft.js';

/** How well a pitch control turns the flow. */
export interface PitchControl {
  readonly name: string;
  /** On its mean chord at the airspeed flown. */
  readonly reynolds: number;
  readonly efficiency: FlapEfficiency;
  /** Open gap at its hinge [m]. */
  readonly gap: number;
  /** Deflection that level flight takes, trailing edge down positive, and its travel [rad]; absent where none trims. */
  readonly trim?: number;
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
  return airframe.wing.controls.flatMap(({ name, chord, layerAhead }) => {
    const control = described.find((one) => one.name === name);
    if (control === undefined || !airframe.aircraft.pitchControls.includes(name)) return [];
    const reynolds = (airspeed * chord) / air.kinematicViscosity;
    return {
      name,
      reynolds,
      efficiency: flapEfficiency({ reynolds, gap: control.gap.value / chord, layer: layerAhead }),
      gap: control.gap.value,
      ...(trim === undefined ? {} : { trim }),
      up: control.up.value,
      down: control.down.value,
    };
  });
}

const share = (value: number): string => `${(100 * value).toFixed(0)} %`;

/** Angle in words: 3.1 deg up. */
const turned = (angle: number): string =>
  `${Math.abs((180 * angle) / Math.PI).toFixed(1)} deg ${angle < 0 ? 'up' : 'down'}`;

/** What a pitch control turns, what it loses to what, and what level flight takes of its travel. */
export function pitchControlWords({ name, reynolds, efficiency, gap, trim, up, down }: PitchControl): string {
  const { value, spread, lostToLayer, lostToGap } = efficiency;
  const through =
    gap > 0
      ? `the open gap of ${(1000 * gap).toFixed(1)} mm at its hinge costs ${share(lostToGap)}`
      : 'its hinge line counts as closed';
  const taken = trim === undefined ? '' : ` Level flight takes ${turned(trim)} of ${turned(trim < 0 ? -up : down)}.`;
  return `${name}: turns the flow by ${value.toFixed(2)} ± ${spread.toFixed(2)} of what theory gives, at a Reynolds number of ${(reynolds / 1000).toFixed(0)} thousand. The slow layer ahead of the hinge costs ${share(lostToLayer)} (a third of that where a thread or tape edge makes it turbulent), ${through}.${taken}`;
}
