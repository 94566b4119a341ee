import type { Vec3 } from '../math/vector.js';
import type { Relation, RelationValues } from '../relation.js';
import { airMassKastenYoung, solarConstant } from './air-mass.js';
import { bodyToSky, circleHeadings, patchNormal, upperSurface } from './attitude.js';
import { chooseHeadings } from './circle.js';
import { filmCover, glassCover, type IncidenceModel, incidenceFactor } from './incidence.js';
import { effectiveLight, lightGeometry, lightLedger } from './light-geometry.js';
import { planeLight } from './plane.js';
import { sunTrackFromDirection } from './position.js';
import { numberOf, skyInputs, skyOf, skyProblem, skyRelations } from './relations-sky.js';
import { type DiffuseModel, type SkyTermsTrack, skyTermsAt } from './sky-terms.js';

const covers: Readonly<Record<string, IncidenceModel>> = {
  film: filmCover,
  glass: glassCover,
  'angular loss': { kind: 'angular loss', coefficient: 0.16 },
  secant: { kind: 'secant', coefficient: 0.05 },
  none: { kind: 'none' },
};

const coverInput: Relation['inputs'][number] = {
  key: 'cover',
  kind: 'choice',
  choices: Object.keys(covers),
  help: 'how oblique light is lost',
  default: 'film',
};
const modelInput: Relation['inputs'][number] = {
  key: 'model',
  kind: 'choice',
  choices: ['perez', 'hay-davies', 'isotropic'],
  help: 'how the diffuse light is spread over the sky',
  default: 'perez',
};
const albedoInput: Relation['inputs'][number] = {
  key: 'albedo',
  kind: 'ratio',
  help: 'reflectance of the ground (grass 0.2, sea 0.06, sand 0.4, snow 0.65)',
  default: 0.2,
};

const coverOf = (values: RelationValues): IncidenceModel => covers[values.cover as string] ?? filmCover;

const albedoProblem = (values: RelationValues) => {
  const albedo = numberOf(values, 'albedo');
  return albedo >= 0 && albedo <= 1
    ? undefined
    : { reason: 'the ground reflects a share', remedy: 'give an albedo from 0 to 1' };
};

const planeRelation: Relation = {
  topic: 'plane',
  title: 'Light on a tilted plane',
  inputs: [
    { key: 'zenith', kind: 'angle', help: 'of the sun from the vertical, as seen' },
    { key: 'azimuth', kind: 'angle', help: 'of the sun from north, clockwise', default: Math.PI },
    { key: 'tilt', kind: 'angle', help: 'of the plane from the level', default: 0 },
    { key: 'facing', kind: 'angle', help: 'of the plane from north, clockwise', default: Math.PI },
    { key: 'directNormal', kind: 'areal power', help: 'from the sun, on a plane facing it' },
    { key: 'diffuseHorizontal', kind: 'areal power', help: 'from the rest of the sky, on a level plane' },
    { key: 'extraterrestrial', kind: 'areal power', help: 'facing the sun above the air', default: solarConstant },
    albedoInput,
    modelInput,
    coverInput,
  ],
  outputs: [
    { key: 'cosineOfIncidence', kind: 'ratio', help: 'between sun and outward normal' },
    { key: 'direct', kind: 'areal power', help: 'from the disc of the sun' },
    { key: 'circumsolar', kind: 'areal power', help: 'from the glare about it' },
    { key: 'isotropic', kind: 'areal power', help: 'from the even sky' },
    { key: 'horizon', kind: 'areal power', help: 'from the band along the horizon' },
    { key: 'ground', kind: 'areal power', help: 'from the ground' },
    { key: 'total', kind: 'areal power', help: 'sum of the above' },
    { key: 'incidenceLoss', kind: 'areal power', help: 'lost by oblique light' },
    { key: 'effective', kind: 'areal power', help: 'total less incidence loss' },
  ],
  compute: (values) => {
    const zenith = numberOf(values, 'zenith');
    const tilt = numberOf(values, 'tilt');
    const directNormal = numberOf(values, 'directNormal');
    const diffuseHorizontal = numberOf(values, 'diffuseHorizontal');
    const extraterrestrial = numberOf(values, 'extraterrestrial');
    if (!(zenith >= 0 && zenith <= Math.PI && tilt >= 0 && tilt <= Math.PI)) {
      return {
        reason: 'zenith angle and tilt are counted from the vertical',
        remedy: 'give angles from 0 to 180 degrees',
      };
    }
    if (!(directNormal >= 0 && diffuseHorizontal >= 0 && extraterrestrial > 0 && directNormal <= extraterrestrial)) {
      return { reason: 'direct light cannot exceed the light above the air', remedy: 'give irradiances of 0 or more' };
    }
    const wrong = albedoProblem(values);
    if (wrong) return wrong;
    const track = sunTrackFromDirection({ apparentZenith: zenith, azimuth: numberOf(values, 'azimuth') });
    const sun: Vec3 = [track.east[0]!, track.north[0]!, track.up[0]!];
    const facing = numberOf(values, 'facing');
    const normal: Vec3 = [Math.sin(tilt) * Math.sin(facing), Math.sin(tilt) * Math.cos(facing), Math.cos(tilt)];
    const cosZenith = sun[2];
    const terms = skyTermsAt(
      {
        directNormal,
        diffuseHorizontal,
        globalHorizontal: directNormal * Math.max(0, cosZenith) + diffuseHorizontal,
        cosZenith,
        extraterrestrial,
        airMass: airMassKastenYoung(zenith),
      },
      { model: values.model as DiffuseModel, albedo: numberOf(values, 'albedo') },
    );
    const cosineOfIncidence = normal[0] * sun[0] + normal[1] * sun[1] + normal[2] * sun[2];
    return { cosineOfIncidence, ...planeLight({ normal, sun, terms, incidence: coverOf(values) }) };
  },
};

const incidenceRelation: Relation = {
  topic: 'incidence',
  title: 'Loss of oblique light in the cover of the cells',
  inputs: [{ key: 'angle', kind: 'angle', help: 'between the light and the outward normal' }, coverInput],
  outputs: [{ key: 'factor', kind: 'ratio', help: 'relative to light straight on' }],
  compute: (values) => ({ factor: incidenceFactor(coverOf(values), Math.cos(numberOf(values, 'angle'))) }),
};

const attitudeRelation: Relation = {
  topic: 'attitude',
  title: 'Where the upper surface faces at a heading, pitch and bank',
  inputs: [
    { key: 'heading', kind: 'angle', help: 'of the nose from north, clockwise', default: 0 },
    { key: 'pitch', kind: 'angle', help: 'nose up', default: 0 },
    { key: 'bank', kind: 'angle', help: 'right wing down', default: 0 },
  ],
  outputs: [
    { key: 'east', kind: 'ratio', help: 'of the outward unit normal' },
    { key: 'north', kind: 'ratio', help: 'of the outward unit normal' },
    { key: 'up', kind: 'ratio', help: 'of the outward unit normal' },
    { key: 'tilt', kind: 'angle', help: 'from the level' },
    { key: 'facing', kind: 'angle', help: 'from north, clockwise; 0 when level' },
  ],
  compute: (values) => {
    const [east, north, up] = bodyToSky(upperSurface, {
      heading: numberOf(values, 'heading'),
      pitch: numberOf(values, 'pitch'),
      bank: numberOf(values, 'bank'),
    });
    const level = Math.hypot(east, north);
    const bearing = level > 1e-12 ? Math.atan2(east, north) : 0;
    return { east, north, up, tilt: Math.atan2(level, up), facing: bearing < 0 ? bearing + 2 * Math.PI : bearing };
  },
};

const circleRelation: Relation = {
  topic: 'circle',
  title: 'Light averaged over a banked circle',
  inputs: [
    ...skyInputs,
    { key: 'bank', kind: 'angle', help: 'of the turn' },
    { key: 'pitch', kind: 'angle', help: 'nose up', default: 0 },
    { key: 'dihedral', kind: 'angle', help: 'of both halves of the wing', default: 0 },
    albedoInput,
    modelInput,
    coverInput,
  ],
  outputs: [
    { key: 'mean', kind: 'areal power', help: 'light that gets in, mean of circle and both halves' },
    { key: 'level', kind: 'areal power', help: 'light that gets into a level wing' },
    { key: 'ratioToLevel', kind: 'ratio', help: 'mean / level' },
    { key: 'least', kind: 'areal power', help: 'darkest heading, mean of both halves' },
    { key: 'most', kind: 'areal power', help: 'brightest heading, mean of both halves' },
    { key: 'incidenceLoss', kind: 'areal power', help: 'lost by oblique light' },
    { key: 'headingCount', kind: 'count', help: 'headings that stand for the circle' },
    { key: 'errorEstimate', kind: 'ratio', help: 'change of the mean when their number is doubled' },
  ],
  compute: (values) => {
    const wrong = skyProblem(values) ?? albedoProblem(values);
    if (wrong) return wrong;
    if (!(Math.cos(numberOf(values, 'zenith')) > 0))
      return { reason: 'the sun is below the horizon', remedy: 'give a zenith angle below 90 degrees' };
    if (!(Math.abs(numberOf(values, 'bank')) < Math.PI / 2))
      return { reason: 'no circle is flown at that bank', remedy: 'give a bank below 90 degrees' };
    return circleOf(values);
  },
};

function circleOf(values: RelationValues): Record<string, number> {
  const sky = skyOf(values);
  const single = skyTermsAt(sky, { model: values.model as DiffuseModel, albedo: numberOf(values, 'albedo') });
  const terms = Object.fromEntries(
    Object.entries(single).map(([key, value]) => [key, Float64Array.of(value)]),
  ) as unknown as SkyTermsTrack;
  const sun = sunTrackFromDirection({ apparentZenith: numberOf(values, 'zenith') });
  const incidence = coverOf(values);
  const pitch = numberOf(values, 'pitch');
  const bank = numberOf(values, 'bank');
  const dihedral = numberOf(values, 'dihedral');
  const facets = [patchNormal({ side: 'left', dihedral }), patchNormal({ side: 'right', dihedral })];
  const choice = chooseHeadings({ sun, terms, facets, pitch, bank, incidence });
  const geometry = lightGeometry({
    sun,
    facets,
    incidence,
    pattern: { pitch, bank, headings: circleHeadings(choice.count) },
  });
  const ledger = lightLedger(geometry, terms);
  const light = effectiveLight(geometry, terms);
  const halves = Array.from(
    { length: choice.count },
    (_, heading) => (light[2 * heading]! + light[2 * heading + 1]!) / 2,
  );
  const mean = (ledger.effective[0]! + ledger.effective[1]!) / 2;
  const level = planeLight({
    normal: [0, 0, 1],
    sun: [sun.east[0]!, sun.north[0]!, sun.up[0]!],
    terms: single,
    incidence,
  }).effective;
  return {
    mean,
    level,
    ratioToLevel: level > 0 ? mean / level : 0,
    least: Math.min(...halves),
    most: Math.max(...halves),
    incidenceLoss: (ledger.incidenceLoss[0]! + ledger.incidenceLoss[1]!) / 2,
    headingCount: choice.count,
    errorEstimate: choice.errorEstimate,
  };
}

/** Relations of this folder that can be asked for on their own. */
export const sunRelations: readonly Relation[] = [
  ...skyRelations,
  planeRelation,
  incidenceRelation,
  attitudeRelation,
  circleRelation,
];
