import type { Check } from '../../check.js';
import { entrainmentShape, headPlate, ludwiegTillmann, THWAITES_PLATE, thwaitesSeparation } from './classicalLayers.js';

const DEGREE = Math.PI / 180;

type Row = Omit<Check, 'topic' | 'provenance' | 'source' | 'unit'> & { readonly unit?: string };
const group = (source: string, rows: readonly Row[]): readonly Check[] =>
  rows.map((row) => ({
    topic: 'section',
    provenance: 'recomputed from the published formula',
    source,
    unit: '1',
    ...row,
  }));

const thwaites = group('B. Thwaites, Aeronautical Quarterly 1, 1949', [
  {
    id: 'section-thwaites-plate',
    quantity: 'laminar plate, momentum thickness x root of the Reynolds number / distance',
    expected: 0.67082,
    tolerance: 1e-5,
    why: 'last digit',
    calls: 'THWAITES_PLATE',
    compute: () => THWAITES_PLATE,
  },
  {
    id: 'section-thwaites-howarth',
    quantity: 'laminar separation in the falling speed 1 - x by Thwaites',
    expected: 0.123141,
    tolerance: 2e-5,
    why: 'closed form 1 - 2.2^(-1/6); step of the integration 1e-5',
    calls: 'thwaitesSeparation',
    compute: () =>
      thwaitesSeparation(
        (x) => 1 - x,
        () => -1,
        { to: 0.3 },
      ) ?? 0,
  },
  {
    id: 'section-thwaites-cylinder',
    quantity: 'laminar separation on a cylinder in potential flow by Thwaites',
    expected: 103.11 * DEGREE,
    unit: 'rad',
    tolerance: 0.02 * DEGREE,
    why: 'two digits behind the point',
    calls: 'thwaitesSeparation',
    compute: () =>
      thwaitesSeparation(
        (x) => 2 * Math.sin(x),
        (x) => 2 * Math.cos(x),
        { from: 1e-9, to: 2.5, step: 1e-4 },
      ) ?? 0,
  },
]);

const HEAD = 'M. Head, ARC R&M 3152, 1958; T. Cebeci, P. Bradshaw, Momentum Transfer in Boundary Layers, 1977';
const head = group(HEAD, [
  ...(
    [
      [1.3, 9.8341],
      [1.4, 7.1775],
      [1.6, 5.3093],
      [2.0, 3.9587],
    ] as const
  ).map(([shape, expected]) => ({
    id: `section-head-shape-${Math.round(10 * shape)}`,
    quantity: `entrainment shape factor at shape factor ${shape}`,
    expected,
    tolerance: 1e-4,
    why: 'last digit',
    calls: 'entrainmentShape',
    compute: () => entrainmentShape(shape),
  })),
  ...(
    [
      [1e6, 2129.5, 0.003464],
      [3e6, 5243, 0.002881],
      [1e7, 14153, 0.002333],
    ] as const
  ).flatMap(([reynolds, thetaReynolds, friction]) => [
    {
      id: `section-head-plate-${reynolds / 1e5}`,
      quantity: `turbulent plate by Head, Reynolds number on momentum thickness at ${reynolds / 1e6} million`,
      expected: thetaReynolds,
      tolerance: 0.003 * thetaReynolds,
      why: 'step of the march, 0.1 % of the distance',
      calls: 'headPlate',
      compute: () => headPlate(reynolds).thetaReynolds,
    },
    {
      id: `section-head-friction-${reynolds / 1e5}`,
      quantity: `turbulent plate by Head, friction coefficient at ${reynolds / 1e6} million`,
      expected: friction,
      tolerance: 0.003 * friction,
      why: 'step of the march, 0.1 % of the distance',
      calls: 'headPlate',
      compute: () => headPlate(reynolds).friction,
    },
  ]),
]);

const friction = group(
  'H. Ludwieg, W. Tillmann, Ingenieur-Archiv 17, 1949',
  (
    [
      [1000, 1.4, 0.0043425],
      [5000, 1.35, 0.0030501],
      [1000, 2.0, 0.0017019],
    ] as const
  ).map(([thetaReynolds, shape, expected]) => ({
    id: `section-friction-${thetaReynolds}-${Math.round(100 * shape)}`,
    quantity: `turbulent friction at ${thetaReynolds} on momentum thickness, shape factor ${shape}`,
    expected,
    tolerance: 1e-6,
    why: 'last digits',
    calls: 'ludwiegTillmann',
    compute: () => ludwiegTillmann(thetaReynolds, shape),
  })),
);

/** Older one-equation layers against their published values. */
export const classicalLayerChecks: readonly Check[] = [...thwaites, ...head, ...friction];
