import { localNumbers } from '../../core/decimal.js';
import type { Finding, LeverView, VerdictView } from '../../core/view.js';
import { briefPayoff } from '../shell/words.js';

/** Reason of the edits that are the lever itself; other edits restore balance, strings and mass after it. */
const itself = 'the change';

const touches = (edited: string, path: string): boolean =>
  edited === path || edited.startsWith(`${path}.`) || edited.startsWith(`${path}[`);

const canBeHad = ({ payoff, problem }: LeverView): boolean => payoff !== undefined && problem === undefined;

/** Levers that change a key or something below it, most helpful first. */
export const leversAt = (levers: readonly LeverView[], path: string): readonly LeverView[] =>
  levers.filter(
    (lever) => canBeHad(lever) && lever.edits.some((edit) => edit.why === itself && touches(edit.path, path)),
  );

/** Levers that begin with one key: a step of that input. Those of several keys stand at the first of them. */
export const leversOf = (levers: readonly LeverView[], path: string): readonly LeverView[] =>
  levers.filter((lever) => canBeHad(lever) && lever.edits.find((edit) => edit.why === itself)?.path === path);

/** 'one more cell: carried 14 min longer, income over need +0.07' */
export function payoffWords({ label, payoff }: Pick<LeverView, 'label' | 'payoff'>): string {
  const said = localNumbers(label);
  return payoff === undefined ? said : `${said}: ${briefPayoff(payoff)}`;
}

/** What of the uncertainty stands behind the fields of a part of the place. */
const CONTRIBUTIONS: readonly (readonly [words: RegExp, path: string])[] = [
  [/level power/, 'level power'],
  [/turbulence/, 'flight.air and control factor'],
  [/always-on loads/, 'loads'],
  [/mass$/, 'masses'],
  [/profile drag/, 'flight.profile drag factor'],
  [/induced drag/, 'flight.induced drag factor'],
  [/drag of fuselage/, 'extra drag'],
  [/propeller/, 'drive.propeller'],
  [/motor no-load/, 'drive.motor.no load current'],
  [/motor resistance/, 'drive.motor.resistance'],
  [/^drive/, 'drive'],
  [/^cells$|^array|cell temperature/, 'array.cell'],
  [/film, tabs/, 'array.lamination.transmittance'],
  [/converter/, 'array.converters'],
  [/battery capacity/, 'battery.capacity'],
  [/battery resistance/, 'battery.resistance'],
];

/** Key of the design file that a contribution to the uncertainty is about, where there is one. */
export const pathOfContribution = (label: string): string | undefined =>
  CONTRIBUTIONS.find(([words]) => words.test(label))?.[1];

export interface Unsure {
  readonly label: string;
  readonly share: number;
  readonly path: string;
  readonly remedy?: string;
}

/** What makes the verdict unsure and can be looked at here, largest first. */
export const unsureHere = (
  contributions: VerdictView['contributions'],
  shows: (path: string) => boolean,
): readonly Unsure[] =>
  contributions.flatMap(({ label, share, measurement }) => {
    const path = pathOfContribution(label);
    if (path === undefined || !shows(path) || share < 0.005) return [];
    return [
      {
        label,
        share,
        path,
        ...(measurement === undefined
          ? {}
          : { remedy: `${measurement.what}, about ${Math.round(measurement.minutes)} min` }),
      },
    ];
  });

/** Findings whose field a part of the place shows. */
export const findingsHere = (findings: readonly Finding[], shows: (path: string) => boolean): readonly Finding[] =>
  findings.filter(({ field }) => field?.file === 'design' && shows(field.path));
