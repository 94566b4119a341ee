import type { Check } from '../check.js';
import { dot, type Vec3 } from '../math/vector.js';
import { bodyToSky, circleHeadings, upperSurface } from './attitude.js';
import { diffuseFactorsMartinRuiz, filmCover, glassCover, type IncidenceModel, incidenceFactor } from './incidence.js';
import { lightGeometry } from './light-geometry.js';
import { type PlaneLight, planeLight } from './plane.js';
import { sunTrackFromDirection } from './position.js';
import { type DiffuseModel, perezBrightness, type SkyState, skyTermsAt } from './sky-terms.js';

const degree = Math.PI / 180;
const recomputed = 'recomputed from the published formula' as const;

const direction = (zenith: number, azimuth: number): Vec3 => [
  Math.sin(zenith * degree) * Math.sin(azimuth * degree),
  Math.sin(zenith * degree) * Math.cos(azimuth * degree),
  Math.cos(zenith * degree),
];

interface SkyCase {
  readonly name: string;
  readonly zenith: number;
  readonly azimuth: number;
  readonly sky: SkyState;
}

function skyCase(
  name: string,
  angles: readonly [number, number],
  light: readonly [number, number, number],
  airMass: number,
): SkyCase {
  const [zenith, azimuth] = angles;
  const [globalHorizontal, directNormal, diffuseHorizontal] = light;
  const cosZenith = Math.cos(zenith * degree);
  const sky = { globalHorizontal, directNormal, diffuseHorizontal, cosZenith, extraterrestrial: 1321.1655835, airMass };
  return { name, zenith, azimuth, sky };
}

const low = skyCase('low sun', [82.85457044, 66.71410338], [79.73860422, 316.1949056, 40.46149818], 7.58831596);
const high = skyCase('high sun', [10.56413562, 144.76567754], [1042.48031487, 939.95469881, 118.45831879], 1.01688136);
const west = skyCase('western sun', [72.41687122, 287.04104128], [257.20751138, 646.22886049, 62.03376265], 3.27930443);

/** Plane of the reference rows: tilted 40 degrees to the south. */
const tilted: Vec3 = [0, -Math.sin(40 * degree), Math.cos(40 * degree)];

function lightOn(c: SkyCase, model: DiffuseModel, normal: Vec3 = tilted, albedo = 0.25): PlaneLight {
  return planeLight({ normal, sun: direction(c.zenith, c.azimuth), terms: skyTermsAt(c.sky, { model, albedo }) });
}

const diffuse = (light: PlaneLight): number => light.circumsolar + light.isotropic + light.horizon;

const papers: Readonly<Record<DiffuseModel, string>> = {
  isotropic: 'Liu and Jordan, Solar Energy 7, 1963',
  'hay-davies': 'Hay and Davies, 1980',
  perez: 'Perez et al., Solar Energy 44, 1990',
};

const totals: readonly Check[] = (
  [
    [low, 'isotropic', 35.728402, 1e-5, 'published'],
    [high, 'isotropic', 104.601328, 1e-5, 'published'],
    [west, 'isotropic', 54.777191, 1e-5, 'published'],
    [low, 'hay-davies', 27.1775, 1e-4, 'published'],
    [high, 'hay-davies', 102.9949, 1e-4, 'published'],
    [west, 'hay-davies', 33.1909, 1e-4, 'published'],
    [low, 'perez', 31.46046871, 0.01, 'published'],
    [low, 'perez', 31.463508, 1e-5, recomputed],
    [high, 'perez', 109.084332, 1e-5, recomputed],
    [west, 'perez', 45.45539877, 0.01, 'published'],
    [west, 'perez', 45.45979, 1e-5, recomputed],
  ] as const
).map(([c, model, expected, tolerance, provenance]) => ({
  id: `plane-diffuse-${model}-${c.name.replace(' ', '-')}${tolerance > 1e-3 ? '-printed' : ''}`,
  topic: 'plane',
  quantity: `diffuse light on a plane tilted 40 deg south, ${c.name}, ${model}`,
  expected,
  unit: 'W/m2',
  tolerance,
  why:
    tolerance > 1e-3
      ? 'the published components add up 0.004 away from the published total'
      : 'rounded in the last digit',
  provenance,
  source: provenance === 'published' ? `${papers[model]}, public reference values of the formula` : papers[model],
  calls: 'planeLight',
  compute: () => diffuse(lightOn(c, model)),
}));

const components: readonly Check[] = (
  [
    [low, 'horizon', 4.622122],
    [high, 'isotropic', 41.621826],
    [high, 'circumsolar', 61.619987],
    [west, 'circumsolar', 4.479664],
    [low, 'ground', 2.3319],
    [high, 'ground', 30.4868],
  ] as const
).map(([c, key, expected]) => ({
  id: `plane-perez-${key}-${c.name.replace(' ', '-')}`,
  topic: 'plane',
  quantity: `${key} light on a plane tilted 40 deg south, ${c.name}, Perez, albedo 0.25`,
  expected,
  unit: 'W/m2',
  tolerance: key === 'ground' ? 6e-5 : 1e-5,
  why: 'rounded in the last digit',
  provenance: recomputed,
  source: papers.perez,
  calls: 'planeLight',
  compute: () => lightOn(c, 'perez')[key],
}));

const clearness: readonly Check[] = (
  [
    [low, 2.883979],
    [high, 8.883458],
    [west, 4.358437],
  ] as const
).map(([c, expected]) => ({
  id: `plane-clearness-${c.name.replace(' ', '-')}`,
  topic: 'plane',
  quantity: `sky clearness, ${c.name}`,
  expected,
  unit: '-',
  tolerance: 1e-6,
  why: 'rounded in the last digit',
  provenance: recomputed,
  source: papers.perez,
  calls: 'perezBrightness',
  compute: () => perezBrightness(c.sky).clearness,
}));

const flown: SkyCase = {
  name: 'aircraft',
  zenith: 60,
  azimuth: 180,
  sky: {
    globalHorizontal: 468.59,
    directNormal: 786.07,
    diffuseHorizontal: 75.55,
    cosZenith: 0.5,
    extraterrestrial: 1361,
    airMass: 1.99429,
  },
};
const banked = (heading: number, bank: number, pitch = 0): Vec3 =>
  bodyToSky(upperSurface, { heading: heading * degree, bank: bank * degree, pitch: pitch * degree });

const aircraft: readonly Check[] = (
  [
    ['direct', 'perez', 90, 680.757, (light: PlaneLight) => light.direct],
    ['isotropic diffuse', 'isotropic', 90, 70.489, diffuse],
    ['diffuse', 'hay-davies', 90, 105.355, diffuse],
    ['diffuse', 'perez', 90, 111.533, diffuse],
    ['ground', 'perez', 90, 6.278, (light: PlaneLight) => light.ground],
    ['direct', 'perez', 270, 0, (light: PlaneLight) => light.direct],
    ['diffuse', 'hay-davies', 270, 29.777, diffuse],
    ['diffuse', 'perez', 270, 45.198, diffuse],
  ] as const
).map(([quantity, model, heading, expected, pick]) => ({
  id: `bank-${quantity.replace(' ', '-')}-${model}-heading-${heading}`,
  topic: 'plane',
  quantity: `${quantity} light on a wing banked 30 deg, heading ${heading}, sun south at 60 deg, ${model}, albedo 0.2`,
  expected,
  unit: 'W/m2',
  tolerance: 1e-3,
  why: 'the light of the sky is given to 0.01',
  provenance: recomputed,
  source: `vector geometry; ${papers[model]}`,
  calls: 'planeLight',
  compute: () => pick(lightOn(flown, model, banked(heading, 30), 0.2)),
}));

const attitudes: readonly Check[] = (
  [
    [90, 0, 30, 0.939693],
    [270, 0, 30, 0.173648],
    [90, 5, 30, 0.937574],
    [0, 5, 0, Math.SQRT1_2],
    [180, 5, 0, 0.573576],
    [45, 0, 45, 0.837542],
    [225, 0, 45, 0.071497],
  ] as const
).map(([heading, pitch, bank, expected]) => ({
  id: `attitude-${heading}-${pitch}-${bank}`,
  topic: 'plane',
  quantity: `cosine of incidence, heading ${heading}, pitch ${pitch}, bank ${bank} deg, sun south at 50 deg`,
  expected,
  unit: '-',
  tolerance: 1e-6,
  why: 'rounded in the last digit',
  provenance: recomputed,
  source: 'rotation by heading, pitch, bank (ISO 1151-1)',
  calls: 'bodyToSky',
  compute: () => dot(banked(heading, bank, pitch), direction(50, 180)),
}));

/** Mean cosine of incidence of a flat wing over a circle, sun at 50 degrees. */
function circleMean(bank: number, count: number): number {
  const geometry = lightGeometry({
    sun: sunTrackFromDirection({ apparentZenith: 50 * degree }),
    facets: [upperSurface],
    pattern: { pitch: 0, bank: bank * degree, headings: circleHeadings(count) },
    incidence: { kind: 'none' },
  });
  return geometry.beamBareMean[0]!;
}

const circle: readonly Check[] = (
  [
    [10, 0.633022, 16, 1e-6, 'exact: cosine of zenith angle x cosine of bank while the sun is never behind the wing'],
    [20, 0.604023, 16, 1e-6, 'exact: cosine of zenith angle x cosine of bank while the sun is never behind the wing'],
    [30, 0.55667, 16, 1e-6, 'exact: cosine of zenith angle x cosine of bank while the sun is never behind the wing'],
    [45, 0.465098, 256, 1e-5, 'the sun is behind the wing on some headings; converges with the square of their number'],
  ] as const
).map(([bank, expected, count, tolerance, why]) => ({
  id: `circle-${bank}`,
  topic: 'circle',
  quantity: `mean cosine of incidence over a circle banked ${bank} deg, sun at 50 deg`,
  expected,
  unit: '-',
  tolerance,
  why,
  provenance: recomputed,
  source: 'vector geometry',
  calls: 'lightGeometry',
  compute: () => circleMean(bank, count),
}));

const beamAtBank = (bank: number): number => {
  const attitude = { heading: 90 * degree, pitch: 0, bank: bank * degree };
  return 786 * Math.max(0, dot(bodyToSky(upperSurface, attitude), direction(50, 180)));
};

const roll: Check = {
  id: 'roll-beam',
  topic: 'circle',
  quantity:
    'change of the beam on a wing that rolls from 30 to -30 deg, heading 90 deg, sun due south at 50 deg, 786 W/m2',
  expected: 602,
  unit: 'W/m2',
  tolerance: 0.5,
  why: 'printed digits',
  provenance: recomputed,
  source: 'vector geometry',
  calls: 'bodyToSky',
  compute: () => beamAtBank(30) - beamAtBank(-30),
};

const softCover = (coefficient: number): IncidenceModel => ({ kind: 'angular loss', coefficient });
const secantCover: IncidenceModel = { kind: 'secant', coefficient: 0.05 };
const coated: IncidenceModel = { ...glassCover, coatingIndex: 1.29 } as IncidenceModel;
const layerSource = 'De Soto, Klein and Beckman, Solar Energy 80, 2006';
const lossSource = 'Martin and Ruiz, Solar Energy Materials and Solar Cells 70, 2001';
const secantSource = 'Souka and Safwat, Solar Energy 10, 1966';

const incidence: readonly Check[] = (
  [
    ['glass', glassCover, 22.5, 0.99926198, 1e-8, 'published', layerSource],
    ['glass', glassCover, 45, 0.98797788, 1e-8, 'published', layerSource],
    ['glass', glassCover, 67.5, 0.8893998, 1e-8, 'published', layerSource],
    ['glass', glassCover, 80, 0.634117, 6e-7, recomputed, layerSource],
    ['glass', glassCover, 89, 0.099225, 6e-7, recomputed, layerSource],
    ['coated glass', coated, 45, 0.9917463, 1e-8, 'published', layerSource],
    ['coated glass', coated, 67.5, 0.91506158, 1e-8, 'published', layerSource],
    ['film', filmCover, 60, 0.954538, 6e-7, recomputed, layerSource],
    ['film', filmCover, 80, 0.650907, 6e-7, recomputed, layerSource],
    ['angular loss 0.16', softCover(0.16), 45, 0.98986965, 1e-8, 'published', lossSource],
    ['angular loss 0.18', softCover(0.18), 60, 0.9414631, 1e-7, 'published', lossSource],
    ['angular loss 0.16', softCover(0.16), 85, 0.42081, 6e-7, recomputed, lossSource],
    ['secant 0.05', secantCover, 22.5, 0.99588039, 1e-8, 'published', secantSource],
    ['secant 0.05', secantCover, 67.5, 0.9193437, 1e-7, 'published', secantSource],
    ['secant 0.05', secantCover, 80, 0.762061, 6e-7, recomputed, secantSource],
  ] as const
).map(([name, model, angle, expected, tolerance, provenance, source]) => ({
  id: `incidence-${name.replaceAll(' ', '-')}-${angle}`,
  topic: 'plane',
  quantity: `incidence-angle factor, ${name}, ${angle} deg`,
  expected,
  unit: '-',
  tolerance,
  why: 'rounded in the last digit',
  provenance,
  source: provenance === 'published' ? `${source}, public reference values of the formula` : source,
  calls: 'incidenceFactor',
  compute: () => incidenceFactor(model, Math.cos(angle * degree)),
}));

const diffuseIncidence: readonly Check[] = (
  [
    [0.16, 30, 'sky', 0.9549735],
    [0.16, 30, 'ground', 0.7944426],
    [0.18, 0, 'sky', 0.9407678],
    [0.18, 120, 'sky', 0.9055541],
    [0.18, 120, 'ground', 0.9483508],
  ] as const
).map(([coefficient, tilt, from, expected]) => ({
  id: `incidence-diffuse-${from}-${coefficient}-${tilt}`,
  topic: 'plane',
  quantity: `incidence factor of diffuse light from the ${from}, angular loss ${coefficient}, tilt ${tilt} deg`,
  expected,
  unit: '-',
  tolerance: 1e-7,
  why: 'rounded in the last digit',
  provenance: 'published' as const,
  source: 'Martin and Ruiz, Progress in Photovoltaics 13, 2005, public reference values of the formula',
  calls: 'diffuseFactorsMartinRuiz',
  compute: () => diffuseFactorsMartinRuiz({ coefficient, tilt: tilt * degree })[from],
}));

/** External checks of light on planes and banked wings. */
export const planeChecks: readonly Check[] = [
  ...totals,
  ...components,
  ...clearness,
  ...aircraft,
  ...attitudes,
  ...circle,
  roll,
  ...incidence,
  ...diffuseIncidence,
];
