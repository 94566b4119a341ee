import { type ControlLayers, deflectionThatCounts } from '../section/turning.js';
import { type ElasticHalf, type LoadedHalf, loadHalf } from './elasticHalf.js';

/** What a trimmed flight needs beside the elastic wing. */
export interface TrimCondition {
  /** Weight carried, load factor included [N], and the balance point aft of the datum [m]. */
  readonly weight: number;
  readonly balancePoint: number;
  /** Controls that move together for pitch, by name. */
  readonly pitchControls: readonly string[];
  /** Mean aerodynamic chord [m]. */
  readonly chord: number;
  /** Pitching moment of bodies over dynamic pressure and angle of attack, nose up [m3/rad]; 0 where there are none. */
  readonly bodyMoment: number;
  /** What the boundary layers take of the pitch controls; absent: nothing. */
  readonly pitchLayers?: PitchLayers;
}

/** Boundary layers of pitch controls: as the flight has them, their chord [m] and the air [kg/m3, m2/s]. */
export interface PitchLayers extends ControlLayers {
  /** Relative standard deviation of what they turn. */
  readonly spread: number;
  readonly chord: number;
  readonly density: number;
  readonly kinematicViscosity: number;
}

/** Deflection that does in flight at a dynamic pressure what a deflection does in the lattice [rad]. */
function deflectionFor(counted: number, pressure: number, layers: PitchLayers | undefined): number {
  if (layers === undefined) return counted;
  const airspeed = Math.sqrt((2 * pressure) / layers.density);
  return deflectionThatCounts(layers, counted, (airspeed * layers.chord) / layers.kinematicViscosity);
}

/** Lift [m2] and nose-up moment about the balance point [m3] of the whole aircraft over dynamic pressure, for a unit of each cause. */
export interface CauseForces {
  readonly names: readonly string[];
  readonly lift: Float64Array;
  readonly moment: Float64Array;
}

/** Sums the loads of a symmetric half over both sides. */
export function causeForces(elastic: ElasticHalf, loaded: LoadedHalf, balancePoint: number): CauseForces {
  const { lattice, panels, causes, couples } = elastic.steady;
  const { ends, strips, stripOfPanel } = lattice;
  const count = causes.length;
  const [lift, moment] = [new Float64Array(count), new Float64Array(count)];
  for (let p = 0; p < panels; p++) {
    const strip = stripOfPanel[p];
    const factor = 4 * strips.width[strip] * strips.nz[strip];
    const arm = balancePoint - (ends[6 * p] + ends[6 * p + 3]) / 2;
    for (let c = 0; c < count; c++) {
      const force = factor * loaded.circulation[p * count + c];
      lift[c] += force;
      moment[c] += force * arm;
    }
    // Section moments are pairs of forces on the first and last panel of a strip.
    moment[0] += 2 * couples[p] * strips.nz[strip] * arm;
  }
  return { names: causes.map(([name]) => name), lift, moment };
}

/** Trim of the flexible aircraft in straight flight at a dynamic pressure. */
export interface ElasticTrim {
  readonly pressure: number;
  /** [rad] */
  readonly alpha: number;
  /** Deflection of the pitch control, and what the lattice counts of it [rad]. */
  readonly control: number;
  readonly counted: number;
  /** (neutral point - balance point) / chord, control held. */
  readonly staticMargin: number;
  /** Lift slope over dynamic pressure [m2/rad]. */
  readonly liftSlope: number;
  /** Moment that the control makes at constant lift, over dynamic pressure [m3/rad]; negative for trailing edge down. */
  readonly controlPower: number;
  readonly loaded: LoadedHalf;
}

/**
 * Angle of attack and pitch control that carry the weight without moment, the wing bent by its own loads.
 * Undefined exactly at divergence or where the control has no effect at all.
 */
export function elasticTrim(elastic: ElasticHalf, pressure: number, condition: TrimCondition): ElasticTrim | undefined {
  const loaded = loadHalf(elastic, pressure);
  if (loaded === undefined) return undefined;
  const { names, lift, moment } = causeForces(elastic, loaded, condition.balancePoint);
  const alphaAt = names.indexOf('angle of attack');
  const controls = condition.pitchControls.map((name) => names.indexOf(name)).filter((index) => index >= 0);
  const byControl = (values: Float64Array) => controls.reduce((sum, index) => sum + values[index], 0);
  const liftSlope = lift[alphaAt];
  const momentSlope = moment[alphaAt] + condition.bodyMoment;
  const [controlLift, controlMoment] = [byControl(lift), byControl(moment)];
  const determinant = liftSlope * controlMoment - controlLift * momentSlope;
  if (determinant === 0) return undefined;
  const [wanted, missing] = [condition.weight / pressure - lift[0], -moment[0]];
  const counted = (liftSlope * missing - momentSlope * wanted) / determinant;
  return {
    pressure,
    alpha: (wanted * controlMoment - controlLift * missing) / determinant,
    control: deflectionFor(counted, pressure, condition.pitchLayers),
    counted,
    staticMargin: -momentSlope / (liftSlope * condition.chord),
    liftSlope,
    controlPower: determinant / liftSlope,
    loaded,
  };
}

/** How much of each cause of the lattice acts in trim: what it is by itself, the incidence, and the pitch controls as they count. */
export const trimWeights = (
  { causes }: ElasticHalf['steady'],
  { alpha, counted }: Pick<ElasticTrim, 'alpha' | 'counted'>,
  pitchControls: readonly string[],
): readonly number[] =>
  causes.map(([name], c) =>
    c === 0 ? 1 : name === 'angle of attack' ? alpha : pitchControls.includes(name) ? counted : 0,
  );

/** Forces of the air on the panels of the right half in trim, upwards along their normals [N]. */
export function trimForces(elastic: ElasticHalf, trim: ElasticTrim, pitchControls: readonly string[]): Float64Array {
  const { causes, couples, lattice, panels } = elastic.steady;
  const count = causes.length;
  const weights = trimWeights(elastic.steady, trim, pitchControls);
  return Float64Array.from({ length: panels }, (_, p) => {
    let circulation = 0;
    for (let c = 0; c < count; c++) circulation += weights[c] * trim.loaded.circulation[p * count + c];
    return trim.pressure * (2 * lattice.strips.width[lattice.stripOfPanel[p]] * circulation + couples[p]);
  });
}

/**
 * Rolling moment of opposed controls over dynamic pressure, right wing down, for a radian of each antisymmetric control [m3/rad]. A control that
 * is deflected with its right side down rolls to the left: negative while it acts as it should.
 */
export function rollPower(elastic: ElasticHalf, pressure: number, controls: readonly string[]): number | undefined {
  const { lattice, panels, causes } = elastic.steady;
  const { strips, stripOfPanel } = lattice;
  const together = new Float64Array(panels);
  for (const [name, incidence] of causes)
    if (controls.includes(name)) for (let p = 0; p < panels; p++) together[p] += incidence[p];
  const loaded = loadHalf(elastic, pressure, [['roll controls', together]]);
  if (loaded === undefined) return undefined;
  let sum = 0;
  for (let p = 0; p < panels; p++) {
    const strip = stripOfPanel[p];
    const sides = strip < strips.mirroredCount ? 2 : 1;
    const arm = strips.nz[strip] * strips.y[strip] - strips.ny[strip] * strips.z[strip];
    sum -= sides * 2 * strips.width[strip] * arm * loaded.circulation[p];
  }
  return sum;
}
