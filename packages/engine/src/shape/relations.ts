import type { Relation } from '../relation.js';
import { bodyDrag } from './parasite.js';
import { planform, trapezoidalWing } from './planform.js';

/** Relations of shape: planform of a tapered wing, parasite drag of a body. */
export const shapeRelations: readonly Relation[] = [
  {
    topic: 'planform',
    title: 'Area, chords and position of the mean aerodynamic chord of a straight-tapered wing',
    inputs: [
      { key: 'span', kind: 'length', help: 'from tip to tip' },
      { key: 'aspectRatio', kind: 'ratio', help: 'span squared / area' },
      { key: 'taper', kind: 'ratio', help: 'tip chord / root chord', default: 1 },
      { key: 'sweep', kind: 'angle', help: 'of the quarter chord, aft positive', default: 0 },
    ],
    outputs: [
      { key: 'area', kind: 'area', help: 'of both sides' },
      { key: 'rootChord', kind: 'length', help: 'at the plane of symmetry' },
      { key: 'tipChord', kind: 'length', help: 'at the tip' },
      { key: 'meanGeometricChord', kind: 'length', help: 'area / span' },
      { key: 'meanAerodynamicChord', kind: 'length', help: 'integral of chord squared / area' },
      {
        key: 'meanChordLeadingEdge',
        kind: 'length',
        help: 'leading edge of the mean aerodynamic chord aft of the apex',
      },
      { key: 'meanChordStation', kind: 'length', help: 'its distance from the plane of symmetry' },
    ],
    compute: (values) => {
      const [span, aspectRatio] = [Number(values.span), Number(values.aspectRatio)];
      const taper = Number(values.taper);
      if (!(span > 0 && aspectRatio > 0 && taper > 0))
        return { reason: 'span, aspect ratio and taper must be positive', remedy: 'state values above zero' };
      const wing = trapezoidalWing({ span, aspectRatio, taper, sweep: Number(values.sweep) });
      const form = planform(wing);
      return {
        area: form.area,
        rootChord: wing.stations[0].chord,
        tipChord: wing.stations[1].chord,
        meanGeometricChord: form.meanGeometricChord,
        meanAerodynamicChord: form.meanAerodynamicChord,
        meanChordLeadingEdge: form.xMeanChord,
        meanChordStation: form.yMeanChord,
      };
    },
  },
  {
    topic: 'parasite-drag',
    title: 'Drag of a fuselage or pod from the friction of its wetted area',
    inputs: [
      { key: 'length', kind: 'length', help: 'of the body' },
      { key: 'width', kind: 'length', help: 'greatest' },
      { key: 'height', kind: 'length', help: 'greatest' },
      { key: 'airspeed', kind: 'speed', help: 'true airspeed', default: 10 },
      { key: 'viscosity', kind: 'kinematic viscosity', help: 'of the air', default: 1.46e-5 },
      { key: 'density', kind: 'density', help: 'of the air', default: 1.225 },
    ],
    outputs: [
      { key: 'dragArea', kind: 'area', help: 'drag / dynamic pressure' },
      { key: 'uncertainty', kind: 'area', help: 'standard uncertainty of it' },
      { key: 'drag', kind: 'force', help: 'at the airspeed' },
    ],
    compute: (values) => {
      const number = (key: string) => Number(values[key]);
      const body = {
        name: 'body',
        x: 0,
        z: 0,
        length: number('length'),
        width: number('width'),
        height: number('height'),
      };
      const airspeed = number('airspeed');
      const kinematicViscosity = number('viscosity');
      if (![body.length, body.width, body.height, airspeed, kinematicViscosity].every((value) => value > 0))
        return { reason: 'sizes, airspeed and viscosity must be positive', remedy: 'state values above zero' };
      const { dragArea, uncertainty } = bodyDrag(body, { airspeed, kinematicViscosity });
      return { dragArea, uncertainty, drag: 0.5 * number('density') * airspeed * airspeed * dragArea };
    },
  },
];
