/** Kinds of quantity by which the edges of the program attach units; inside, all are SI (angles rad, temperatures K). */
export type QuantityKind =
  | 'length'
  | 'area'
  | 'volume'
  | 'mass'
  | 'time'
  | 'speed'
  | 'acceleration'
  | 'angle'
  | 'angular speed'
  /** Of a vibration, inside as its angular frequency [rad/s]. */
  | 'frequency'
  | 'areal density'
  | 'linear density'
  | 'density'
  | 'dynamic viscosity'
  | 'kinematic viscosity'
  | 'charge'
  | 'energy'
  | 'power'
  | 'areal power'
  | 'areal energy'
  | 'force'
  | 'torque'
  | 'moment of inertia'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'motor speed constant'
  | 'temperature'
  | 'temperature difference'
  | 'pressure'
  | 'thermal conductivity'
  | 'heat transfer coefficient'
  | 'voltage per kelvin'
  | 'current per kelvin'
  | 'ratio'
  | 'count'
  | 'instant';

/** One input of a relation: a number of a kind, or one of several words. */
export type RelationInput =
  | { readonly key: string; readonly kind: QuantityKind; readonly help: string; readonly default?: number }
  | {
      readonly key: string;
      readonly kind: 'choice';
      readonly choices: readonly string[];
      readonly help: string;
      readonly default?: string;
    };

export interface RelationOutput {
  readonly key: string;
  readonly kind: QuantityKind;
  readonly help: string;
}

/** Values by key, SI; choices are strings. */
export type RelationValues = Readonly<Record<string, number | string>>;

/**
 * An engine relation that can be asked for on its own (`noonwing figure TOPIC key=value ...`).
 * `compute` receives every input (defaults filled in) in SI and returns every output in SI, or a reason why not.
 */
export interface Relation {
  readonly topic: string;
  readonly title: string;
  readonly inputs: readonly RelationInput[];
  readonly outputs: readonly RelationOutput[];
  readonly compute: (
    values: RelationValues,
  ) => Readonly<Record<string, number>> | { readonly reason: string; readonly remedy: string };
}

/**
 * Answer of a relation: its outputs, or a reason why there is none. Inputs far outside its range that would give a number
 * without meaning are a reason too, so that nothing that is not finite is ever shown.
 */
export function answerRelation(relation: Relation, values: RelationValues): ReturnType<Relation['compute']> {
  const outputs = relation.compute(values);
  const lost = Object.entries(outputs).find(([, value]) => typeof value === 'number' && !Number.isFinite(value));
  if (lost === undefined) return outputs;
  return {
    reason: `the inputs lie outside what this relation covers: ${lost[0]} has no finite value`,
    remedy: 'bring the inputs closer to those of a real aircraft',
  };
}
