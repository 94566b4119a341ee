import type { Check } from '../check.js';
import type { Outcome } from '../result.js';
import { actuatorDisc, propellerCoefficients } from './actuatorDisc.js';
import { annulusSolution, bladeElementLoads } from './bladeElement.js';
import { genericBladeSection, type SimpleBladeSection } from './bladeSection.js';
import type { Drive } from './drive.js';
import { directDrive, motor } from './motor.js';
import { seaLevelAir, uncorrectedPropeller } from './propeller.js';
import { designPropeller } from './propellerDesign.js';
import { bladePlanformArea, type PropellerGeometry, pitchAngleAt } from './propellerGeometry.js';
import { buildPropellerTable } from './propellerTable.js';
import {
  da4002,
  publishedGeometry,
  slowFlight10x47,
  thinElectric10x5,
  thinElectric10x7,
  thinElectric19x12,
} from './publishedPropellers.js';
import { genericSpeedController } from './speedController.js';
import { stoppedDragArea, unpoweredDrag } from './unpowered.js';
import { zeroLiftFromThrust } from './zeroLiftFromThrust.js';

const { density, dynamicViscosity } = seaLevelAir;
const degree = Math.PI / 180;

const demand = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

/** cl = 2 pi alpha at every angle, constant drag. */
const linearSection = (drag: number): SimpleBladeSection => ({
  ...genericBladeSection,
  ...{ zeroLiftAngle: 0, camberReynolds: 0, liftSlope: 2 * Math.PI, maximumLift: 1e3, minimumLift: -1e3 },
  ...{ minimumDrag: drag, dragRise: 0, dragExponent: 0 },
});

const recomputed = 'recomputed from the published formula';
type Row = readonly [id: string, quantity: string, expected: number, unit: string, tolerance: number];
const row = (
  [id, quantity, expected, unit, tolerance]: Row,
  why: string,
  provenance: Check['provenance'],
  source: string,
  calls: string,
  compute: () => number,
): Check => ({
  ...{ id: `propeller-${id}`, topic: 'propeller', quantity, expected, unit, tolerance, why, provenance, source },
  ...{ calls, compute },
});

const annulusAt = (airspeed: number) =>
  annulusSolution({
    ...{ bladeCount: 2, tipRadius: 0.25, hubRadius: 0, radius: 0.15, chord: 0.03, pitchAngle: 20 * degree },
    ...{ airspeed, rotationRate: 300, density, dynamicViscosity, section: linearSection(0.01) },
  });
const annulusSource =
  'S. A. Ning, Wind Energy 17(9), 2014 (form of the equations): 2 blades, R 0.25, r 0.15, c 0.03 m, 20 degrees, 300 rad/s';
const annulusRows = [
  [0, 8.221081, 92.881419, 2.123129],
  [10, 14.710235, 43.497668, 1.833732],
  [25, 27.203389, -68.738027, -5.13581],
] as const;
const annulusChecks = annulusRows.flatMap(([airspeed, angle, thrust, torque]) => [
  row(
    [`annulus-angle-${airspeed}`, `inflow angle of an annulus at ${airspeed} m/s`, angle, 'degree', 1e-5],
    ...(['seven printed digits', recomputed, annulusSource, 'annulusSolution'] as const),
    () => annulusAt(airspeed).inflowAngle / degree,
  ),
  row(
    [`annulus-thrust-${airspeed}`, `thrust per radius at ${airspeed} m/s`, thrust, 'N/m', 1e-5],
    ...(['seven printed digits', recomputed, annulusSource, 'annulusSolution'] as const),
    () => annulusAt(airspeed).thrustGradient,
  ),
  row(
    [`annulus-torque-${airspeed}`, `torque per radius at ${airspeed} m/s`, torque, 'N', 2e-6],
    ...(['seven printed digits', recomputed, annulusSource, 'annulusSolution'] as const),
    () => annulusAt(airspeed).torqueGradient,
  ),
]);

const designAt = (dragToLift: number, bladeCount = 2, perSecond = 40, hubFraction = 0.15) =>
  demand(
    designPropeller({
      ...{ diameter: 0.5, bladeCount, airspeed: 10, rotationRate: 2 * Math.PI * perSecond, density, hubFraction },
      ...{ load: { thrust: 5 }, liftCoefficient: 0.5, dragToLift, section: linearSection(0) },
    }),
  );
const analysed = () =>
  bladeElementLoads({
    ...{ geometry: designAt(0).geometry, airspeed: 10, rotationRate: 80 * Math.PI, density, dynamicViscosity },
    elements: 60,
  });
const designSource =
  'C. N. Adkins, R. H. Liebeck, J. Propulsion and Power 10(5), 1994 (from memory): D 0.5 m, 2 blades, 10 m/s, 40 rev/s, 5 N, cl 0.5';
const design = (id: Row, compute: () => number, why = 'printed digits; the same 400 stations'): Check =>
  row(id, why, recomputed, designSource, 'designPropeller', compute);

const designChecks: readonly Check[] = [
  design(['design-zeta', 'displacement ratio without drag', 0.270179, '-', 3e-5], () => designAt(0).displacementRatio),
  design(['design-eta', 'efficiency without drag', 0.880988, '-', 1e-5], () => designAt(0).efficiency),
  design(['design-eta-drag', 'efficiency with drag / lift 0.02', 0.815787, '-', 1e-5], () => designAt(0.02).efficiency),
  design(['design-power', 'power with drag / lift 0.02', 61.291, 'W', 2e-3], () => designAt(0.02).power),
  design(
    ['design-angle', 'inflow angle nearest to r/R 0.8736, times r/R', 0.18064, 'rad', 1e-4],
    () => {
      const { geometry, inflowAngles } = designAt(0);
      const fractions = geometry.stations.map((s) => s.radiusFraction);
      const k = fractions.reduce(
        (best, x, i) => (Math.abs(x - 0.8736) < Math.abs(fractions[best] - 0.8736) ? i : best),
        0,
      );
      return Math.tan(inflowAngles[k]) * fractions[k];
    },
    'r tan(phi) is the same at every radius: 0.8736 x tan(11.684 degrees)',
  ),
  design(
    ['design-disc-limit', 'efficiency with 200 blades at 4000 rev/s', 0.9133, '-', 1e-5],
    () => designAt(0, 200, 4000, 1e-3).efficiency,
    'the limit is the actuator disc',
  ),
  row(
    ['design-analysed', 'thrust of that geometry by blade elements', 4.951, 'N', 0.03],
    '0.6 per cent: stations, tip element and the interpolation of chord differ',
    ...([
      recomputed,
      'blade-element momentum equations solved independently, root loss included',
      'bladeElementLoads',
      () => analysed().thrust,
    ] as const),
  ),
  row(
    ['design-analysed-power', 'power of that geometry by blade elements', 56.25, 'W', 0.4],
    '0.7 per cent: stations, tip element and the interpolation of chord differ',
    ...([
      recomputed,
      'blade-element momentum equations solved independently, root loss included',
      'bladeElementLoads',
    ] as const),
    () => analysed().torque * 80 * Math.PI,
  ),
];

/** Thrust and power coefficient of a geometry in sea-level air. */
function coefficientsAt(geometry: PropellerGeometry, advanceRatio: number, perMinute: number) {
  const rotationRate = (perMinute * Math.PI) / 30;
  const airspeed = (advanceRatio * perMinute * geometry.diameter) / 60;
  const loads = bladeElementLoads({ geometry, airspeed, rotationRate, density, dynamicViscosity });
  const { thrust, torque } = loads;
  const { diameter } = geometry;
  return propellerCoefficients({ thrust, power: torque * rotationRate, airspeed, rotationRate, diameter, density });
}

/** Published blades with the zero-lift angle that gives one measured thrust coefficient. */
function fitted(
  propeller: Parameters<typeof publishedGeometry>[0],
  advanceRatio: number,
  perMinute: number,
  thrustCoefficient: number,
): PropellerGeometry {
  const n = perMinute / 60;
  const { diameter } = propeller;
  return demand(
    zeroLiftFromThrust({
      ...{ geometry: publishedGeometry(propeller), airspeed: advanceRatio * n * diameter, density, dynamicViscosity },
      ...{ rotationRate: 2 * Math.PI * n, thrust: thrustCoefficient * density * n ** 2 * diameter ** 4 },
    }),
  );
}

const daFitted = () => fitted(da4002, 0.500784, 5028, 0.082563);
const slowFitted = () => fitted(slowFlight10x47, 0, 6528, 0.1299);
const electricFitted = () => fitted(thinElectric10x5, 0, 6434, 0.0987);

const daSource = 'UIUC DA4002 9 x 6.75 (AIAA 2014-2151); zero-lift angle fitted at J = 0.501, 5028 rpm';
const slowSource = 'UIUC slow flight 10 x 4.7 (AIAA 2011-1255); zero-lift angle fitted at rest, 6528 rpm';
const within = {
  cruise: '10 per cent for J 0.15 to 0.4, zero-lift angle fitted elsewhere (judgement)',
  static: '15 per cent at rest (judgement)',
  zero: '0.003 near zero thrust (judgement)',
};

type Coefficient = 'thrustCoefficient' | 'powerCoefficient';
const measured = (
  id: string,
  coefficient: Coefficient,
  [advanceRatio, perMinute, expected, share]: readonly [number, number, number, number],
  geometry: () => PropellerGeometry,
  why: string,
  source: string,
): Check =>
  row(
    [
      `${id}-${coefficient === 'thrustCoefficient' ? 'CT' : 'CP'}`,
      `${coefficient === 'thrustCoefficient' ? 'CT' : 'CP'} at J = ${advanceRatio}, ${perMinute} rpm`,
      ...([expected, '-', share * expected] as const),
    ],
    ...([why, 'published', source, 'bladeElementLoads'] as const),
    () => coefficientsAt(geometry(), advanceRatio, perMinute)[coefficient],
  );

const cruiseAndStatic = (
  id: string,
  [advanceRatio, perMinute, ct, cp]: readonly [number, number, number, number],
  geometry: () => PropellerGeometry,
  source: string,
): readonly Check[] => {
  const share = advanceRatio > 0 ? 0.1 : 0.15;
  const why = advanceRatio > 0 ? within.cruise : within.static;
  return [
    measured(id, 'thrustCoefficient', [advanceRatio, perMinute, ct, share], geometry, why, source),
    measured(id, 'powerCoefficient', [advanceRatio, perMinute, cp, share], geometry, why, source),
  ];
};

const nearZero = (id: string, advanceRatio: number, expected: number): Check => ({
  ...measured(id, 'thrustCoefficient', [advanceRatio, 5064, expected, 1], daFitted, within.zero, daSource),
  tolerance: 0.003,
});

const [wideThrust, widePower] = cruiseAndStatic(
  ...(['electric-19x12-static', [0, 3007, 0.0972, 0.0399]] as const),
  () => publishedGeometry(thinElectric19x12),
  'UIUC thin electric 19 x 12 (AIAA 2011-1255); generic section, nothing fitted',
);

const measuredChecks: readonly Check[] = [
  ...cruiseAndStatic('da4002-218', [0.218201, 5028, 0.122901, 0.074731], daFitted, daSource),
  ...cruiseAndStatic('da4002-404', [0.404401, 5028, 0.098328, 0.069457], daFitted, daSource),
  ...cruiseAndStatic('da4002-3030', [0.318318, 3030, 0.104832, 0.072432], daFitted, daSource),
  ...cruiseAndStatic('da4002-2013', [0.315488, 2013, 0.103248, 0.073956], daFitted, daSource),
  ...cruiseAndStatic('da4002-static', [0, 5943.3, 0.14045, 0.08008], daFitted, daSource),
  ...cruiseAndStatic(
    'slow-cruise',
    [0.266, 5000, 0.0895, 0.0464],
    slowFitted,
    `${slowSource}; values from the printed ratios`,
  ),
  ...cruiseAndStatic('slow-static', [0, 2377, 0.1059, 0.0431], slowFitted, slowSource),
  ...cruiseAndStatic(
    ...(['electric-10x5-static', [0, 2508, 0.0914, 0.0374], electricFitted] as const),
    'UIUC thin electric 10 x 5 (AIAA 2011-1255); zero-lift angle fitted at 6434 rpm',
  ),
  ...cruiseAndStatic(
    ...(['electric-10x7-static', [0, 4144, 0.1051, 0.0536], () => publishedGeometry(thinElectric10x7)] as const),
    'UIUC thin electric 10 x 7 (AIAA 2011-1255); generic section, nothing fitted',
  ),
  {
    ...wideThrust,
    miss: 'CT is 16 per cent low: no zero-lift angle of one section for the whole blade fits this propeller; its camber along the blade is not published.',
  },
  widePower,
  nearZero('da4002-811', 0.810712, 0.019905),
  nearZero('da4002-876', 0.876248, 0.003606),
  nearZero('da4002-915', 0.914534, -0.005644),
];

/** The published propeller at 18 m/s on a shaft without friction. */
function freeWheeling() {
  const drive: Drive = {
    propeller: uncorrectedPropeller(buildPropellerTable(daFitted())),
    motor: motor({ speedConstant: 80, resistance: 0.1, noLoadCurrent: 0 }),
    ...{ gear: directDrive, controller: genericSpeedController, count: 1 },
  };
  return demand(unpoweredDrag({ drive, airspeed: 18, air: seaLevelAir, state: 'free-wheel' }));
}

/** Comparisons of propeller functions with sources outside the project. */
export const propellerChecks: readonly Check[] = [
  row(
    ['disc-design', 'ideal efficiency for 5 N at 10 m/s on 0.5 m', 0.913303, '-', 1e-6],
    ...(['printed digits', recomputed, 'Rankine, Froude', 'actuatorDisc'] as const),
    () => actuatorDisc({ thrust: 5, airspeed: 10, diameter: 0.5, density }).efficiency,
  ),
  row(
    ['merit', 'figure of merit of a slow flight 10 x 4.7 at 6528 rpm', 0.7035, '-', 1e-4],
    ...(['printed digits', recomputed, 'UIUC static row CT 0.1299, CP 0.0531', 'propellerCoefficients'] as const),
    () => {
      const rotationRate = (6528 * Math.PI) / 30;
      return propellerCoefficients({
        ...{ thrust: 7.8404, power: 88.57, airspeed: 0, rotationRate, diameter: 0.254, density },
      }).figureOfMerit;
    },
  ),
  ...annulusChecks,
  ...designChecks,
  ...measuredChecks,
  row(
    ['plan-area', 'plan area of a slow flight 10 x 4.7', 4.851e-3, 'm2', 2e-6],
    ...(['printed digits', recomputed, 'UIUC blade stations, trapezium rule', 'bladePlanformArea'] as const),
    () => bladePlanformArea(publishedGeometry(slowFlight10x47)),
  ),
  row(
    ['stopped', 'drag of its stopped blades at 10 m/s', 0.315, 'N', 1e-3],
    ...([
      'printed digits',
      recomputed,
      'S. F. Hoerner, Fluid-Dynamic Drag, 1965 (from memory)',
      'stoppedDragArea',
    ] as const),
    () => {
      const geometry = publishedGeometry(slowFlight10x47);
      const shape = { bladeArea: bladePlanformArea(geometry), pitchAngle: pitchAngleAt(geometry, 0.7) };
      return stoppedDragArea(shape) * 0.5 * density * 100;
    },
  ),
  row(
    ['free-wheel-advance', 'advance ratio of a DA4002 that turns without friction', 0.951, '-', 0.02],
    'the measured rows end at J = 0.915; zero torque is extrapolated',
    ...([recomputed, `${daSource}, extrapolated to CP = 0`, 'unpoweredDrag'] as const),
    () => (2 * Math.PI * 18) / (freeWheeling().rotationRate * da4002.diameter),
  ),
  {
    ...row(
      ['free-wheel-drag', 'drag area of a DA4002 that turns without friction', 1.68e-3, 'm2', 0.7e-3],
      'band of one stated standard uncertainty (30 per cent)',
      ...([recomputed, `${daSource}, extrapolated to CP = 0`, 'unpoweredDrag', () => 0] as const),
    ),
    compute: () => {
      const { dragArea, uncertainty } = freeWheeling();
      return { value: dragArea, low: dragArea * (1 - uncertainty), high: dragArea * (1 + uncertainty) };
    },
  },
  row(
    ['stopped-elements', 'drag area of stopped blades, DA4002, by blade elements', 3.609e-3, 'm2', 0.36e-3],
    '10 per cent between two rough estimates',
    ...(['from memory', 'S. F. Hoerner, Fluid-Dynamic Drag, 1965', 'bladeElementLoads'] as const),
    () => {
      const operation = {
        geometry: publishedGeometry(da4002),
        airspeed: 12,
        rotationRate: 0,
        density,
        dynamicViscosity,
      };
      return -bladeElementLoads(operation).thrust / (0.5 * density * 144);
    },
  ),
];
