import {
  flapEffect,
  type SectionModel,
  sectionDragCoefficient,
  sectionMaximumLiftCoefficient,
  sectionMinimumLiftCoefficient,
  sectionMoment,
  sectionZeroLiftAngle,
} from '../section/index.js';
import { type StripSection, type StripSections, type WingModel, wingForces } from '../wing/index.js';
import type { Airframe } from './types.js';

/** Factors on the computed drag, 1 as computed: measured values and samples of an uncertainty enter here. */
export interface DragFactors {
  readonly profile: number;
  readonly induced: number;
  readonly parasite: number;
}

export const asComputed: DragFactors = { profile: 1, induced: 1, parasite: 1 };

/** A wing and what else drags, ready to be asked for forces. */
export interface WingAirframe {
  readonly wing: WingModel;
  readonly sections: StripSections;
  /** Controls that move together for pitch, by name. */
  readonly pitchControls: readonly string[];
  readonly controlRange: Airframe['controlRange'];
  /** Drag over dynamic pressure of everything but the lifting surfaces [m2]. */
  readonly parasiteDragArea: number;
}

/**
 * A section as the strips of a wing ask for it.
 * @param reynolds - at which the moment is taken [-]
 * @param flap - chord fraction of the control behind it, and its real / ideal turning by hinge and gap (default 0.8); the
 *   effect of a deflection on drag and maximum lift follows from both
 */
export function stripSection(
  model: SectionModel,
  reynolds: number,
  { fraction, efficiency }: { readonly fraction: number; readonly efficiency?: number } = { fraction: 0.25 },
): StripSection {
  const shift = flapEffect(fraction, 0, efficiency).zeroLiftShift;
  return {
    dragCoefficient: (lift, re, deflection) => sectionDragCoefficient(model, lift, re, shift * deflection),
    maximumLift: (re, deflection) => sectionMaximumLiftCoefficient(model, re, shift * deflection),
    minimumLift: (re, deflection) => sectionMinimumLiftCoefficient(model, re, shift * deflection),
    momentCoefficient: sectionMoment(model, sectionZeroLiftAngle(model, reynolds), reynolds),
  };
}

/**
 * Forces of a wing with parasite drag as flight asks for them. Parasite drag is taken to act at the balance point:
 * its moment is within the uncertainty of where it acts.
 *
 * @param factors - on the three kinds of drag
 */
export function wingAirframe(aircraft: WingAirframe, factors: DragFactors = asComputed): Airframe {
  const { wing, sections, pitchControls, controlRange, parasiteDragArea } = aircraft;
  const { area, chord, span } = wing.reference;
  const parasiteDragCoefficient = (factors.parasite * parasiteDragArea) / area;
  return {
    referenceArea: area,
    referenceChord: chord,
    span,
    controlRange,
    forces: ({ alpha, control, pitchRate, airspeed, air, momentReference }) => {
      const controls: Record<string, number> = {};
      for (const name of pitchControls) controls[name] = control;
      const forces = wingForces(
        wing,
        {
          alpha,
          controls,
          pitchRate: (pitchRate * chord) / (2 * airspeed),
          airspeed,
          kinematicViscosity: air.kinematicViscosity,
          momentReference,
        },
        sections,
      );
      return {
        liftCoefficient: forces.liftCoefficient,
        inducedDragCoefficient: factors.induced * forces.inducedDragCoefficient,
        profileDragCoefficient: factors.profile * forces.profileDragCoefficient,
        parasiteDragCoefficient,
        pitchingMomentCoefficient: forces.pitchingMomentCoefficient,
        stallMargin: forces.stallMargin,
        stallStation: forces.stallStation,
      };
    },
  };
}
