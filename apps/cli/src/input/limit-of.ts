import { createStages, type KnownLimit } from '@noonwing/verdict';
import { steadyLimit } from '@noonwing/verdict/limits';
import { needStage } from '@noonwing/verdict/need';
import { prepare } from '@noonwing/verdict/prepare';
import type { LoadedDesign } from './design.js';
import type { LoadedPlan } from './plan.js';

/** What a day hands over to have its limit speed looked for. */
export interface LimitTask {
  readonly aircraft: LoadedDesign['aircraft'];
  readonly plan: LoadedPlan['plan'];
  readonly files: LoadedDesign['files'];
}

/** The limit speed without flutter, from the files alone; undefined where there is none or none can be computed. */
export function limitOf({ aircraft, plan, files }: LimitTask): KnownLimit | undefined {
  const stages = createStages();
  const prepared = prepare(aircraft, plan, files, stages);
  const { model, conditions, known, calibration } = prepared;
  const flown = needStage(model, conditions, known, calibration, stages);
  return flown.ok ? steadyLimit({ prepared, flight: flown.value }, stages) : undefined;
}
