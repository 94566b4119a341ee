import type { CompleteAircraft } from '@noonwing/design';
import { parseQuantity } from '@noonwing/quantities';
import { describesStructure, type Stages, type Verdict } from '@noonwing/verdict';
import type { Lever } from '@noonwing/verdict/levers';
import type { LeverView } from './view.js';

const valueIn = (text: string | undefined, kind: 'length' | 'mass'): number | undefined => {
  const parsed = parseQuantity((text ?? '').replace(/ weighed$/, ''), [kind]);
  return parsed.ok ? parsed.value : undefined;
};

/** What the edits that restore the balance move and add. */
export function balanceOf(
  edits: Lever['edits'],
  { battery, masses }: Pick<CompleteAircraft, 'battery' | 'masses'>,
): LeverView['balance'] {
  const to = valueIn(edits.findLast(({ path }) => path === 'battery.x')?.text, 'length');
  const ballast = edits.reduce((sum, { path, text }) => {
    const name = /^masses\.(balance ballast .*)\.mass$/.exec(path)?.[1];
    if (name === undefined) return sum;
    return sum + (valueIn(text, 'mass') ?? 0) - (masses.find((one) => one.name === name)?.mass.value ?? 0);
  }, 0);
  const moved = to === undefined || battery === undefined ? 0 : to - battery.x.value;
  return moved === 0 && ballast === 0 ? undefined : { battery: moved, ballast };
}

/** A lever with its edits and payoff, without anything of the engine. */
export function leverView(
  { key, label, edits, text, after, payoff, limit, problem }: Lever,
  aircraft: CompleteAircraft,
): LeverView {
  const balance = balanceOf(edits, aircraft);
  return {
    key,
    label: limit === undefined ? label : `${label}, which lowers the limit speed to ${limit.airspeed.toFixed(1)} m/s`,
    edits,
    ...(text === undefined ? {} : { text }),
    ...(after === undefined ? {} : { after }),
    ...(payoff === undefined ? {} : { payoff }),
    ...(balance === undefined ? {} : { balance }),
    ...(problem === undefined
      ? {}
      : { problem: { reason: problem.reason, where: problem.where, remedy: problem.remedy } }),
  };
}

/** How levers find the limit speed of an aircraft whose structure is described. */
export async function limitOption(aircraft: CompleteAircraft, stages: Stages) {
  if (!describesStructure(aircraft)) return {};
  const { steadyLimit } = await import('@noonwing/verdict/limits');
  return { limitOf: (of: Verdict) => steadyLimit(of, stages) };
}
