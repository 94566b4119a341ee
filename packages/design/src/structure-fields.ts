import { type MaterialName, STRUCTURAL_MATERIALS } from './library/materials.js';
import {
  choice,
  labelled,
  list,
  NOT_NEGATIVE,
  object,
  POSITIVE,
  quantity,
  type Read,
  record,
  required,
  SHARE,
  shortForm,
} from './schema/field.js';

const material = choice<MaterialName>(STRUCTURAL_MATERIALS, 'material of the parts library');

const layerField = shortForm(
  'a layer: its material, or with thickness and direction',
  material,
  object('layer', {
    material: required(material),
    thickness: quantity('length', 'of the layer; fabrics and films are as thick as they are applied', {
      bounds: POSITIVE,
      example: '1.5 mm',
    }),
    angle: quantity('angle', 'of its fibres, grain or length to the span', { example: '45 deg' }),
  }),
  (short) => ({ material: short }),
  (full) => (Object.keys(full).length === 1 ? full.material : undefined),
);

const layers = (help: string) => list(layerField, help, 0, 'layer');

const sparField = object('spar, strip or stiffener', {
  kind: required(choice(['tube', 'rod', 'strip', 'caps'], 'round, flat or on edge, or two caps with a web')),
  material: required(material),
  width: required(
    quantity('length', 'outer diameter; width of a strip or cap', { bounds: POSITIVE, example: '8 mm', step: '1 mm' }),
  ),
  height: quantity('length', 'inner diameter of a tube; height of a strip; thickness of a cap', {
    bounds: NOT_NEGATIVE,
    example: '6 mm',
  }),
  tipWidth: quantity('length', 'the same at its outer end, where it tapers', { bounds: POSITIVE }),
  tipHeight: quantity('length', 'the same at its outer end', { bounds: NOT_NEGATIVE }),
  web: material,
  webThickness: quantity('length', 'of the web between caps', { bounds: POSITIVE, example: '1.5 mm' }),
  chordStation: quantity('ratio', 'where it runs', { bounds: SHARE, example: '30 %', step: '5 %' }),
  tipChordStation: quantity('ratio', 'where it ends, if it runs askew', { bounds: SHARE }),
  from: labelled(
    'inner end (from)',
    quantity('ratio', 'inner end, share of the half span', { bounds: SHARE, example: '0 %' }),
  ),
  to: labelled(
    'outer end (to)',
    quantity('ratio', 'outer end, share of the half span', { bounds: SHARE, example: '90 %' }),
  ),
  place: choice(['middle', 'upper', 'lower', 'below'], 'where it lies in the height of the section'),
});

const jointField = object('where the surface comes apart, and what joins it', {
  kind: required(choice(['tube', 'blade', 'box'], 'round tube or rod, flat blade on edge, or box')),
  material: required(material),
  width: required(
    quantity('length', 'outer diameter of a tube; thickness of a blade; width of a box', {
      bounds: POSITIVE,
      example: '10 mm',
      step: '1 mm',
    }),
  ),
  height: quantity('length', 'inner diameter of a tube; height of a blade or box', {
    bounds: NOT_NEGATIVE,
    example: '8 mm',
  }),
  wall: quantity('length', 'thickness of the walls of a box', { bounds: POSITIVE, example: '1 mm' }),
  at: labelled(
    'station (at)',
    required(quantity('ratio', 'share of the half span; 0 % is the middle', { bounds: SHARE, example: '40 %' })),
  ),
  length: required(
    quantity('length', 'of the joiner in each half', { bounds: POSITIVE, example: '100 mm', step: '10 mm' }),
  ),
  chordStation: quantity('ratio', 'where it lies along the chord; absent: where the first spar runs', {
    bounds: SHARE,
    example: '33 %',
  }),
  mass: quantity('mass', 'of one joiner; absent: from its size, and none where the surface was weighed with it', {
    bounds: NOT_NEGATIVE,
    example: '38 g',
  }),
  play: quantity('length', 'between joiner and socket', {
    bounds: NOT_NEGATIVE,
    usual: { to: 0.001 },
    example: '0.1 mm',
  }),
  socketStrength: quantity('pressure', 'of the socket in compression', { bounds: POSITIVE, example: '10 MPa' }),
  bendingKept: quantity(
    'ratio',
    'bending stiffness left over the length of the joiner, instead of what it computes to',
    {
      bounds: SHARE,
      example: '70 %',
    },
  ),
  torsionKept: quantity('ratio', 'twisting stiffness left over the length of the joiner', {
    bounds: SHARE,
    example: '70 %',
  }),
});

export type JointDesign = Read<typeof jointField>;

const wireField = object('bracing wire below a wing, taut in flight, from the wing to a body in the middle', {
  material: required(material),
  diameter: required(quantity('length', 'of the wire', { bounds: POSITIVE, example: '0.5 mm', step: '0.1 mm' })),
  at: labelled(
    'station (at)',
    required(quantity('ratio', 'share of the half span where it is tied', { bounds: SHARE, example: '60 %' })),
  ),
  chordStation: quantity('ratio', 'where it is tied along the chord; absent: where the first spar runs', {
    bounds: SHARE,
    example: '30 %',
  }),
  x: required(quantity('length', 'of its other end, aft of the datum', { example: '80 mm' })),
  z: required(quantity('length', 'of its other end, above the datum', { example: '-120 mm' })),
  breaksAt: quantity('force', 'pull that wire and fittings bear; absent: half of what the wire bears', {
    bounds: POSITIVE,
    example: '100 N',
  }),
});

export type WireDesign = Read<typeof wireField>;

/** What carries load in a surface. */
export const structureField = object('what carries load in the surface', {
  core: choice<MaterialName | 'hollow'>(['hollow', ...STRUCTURAL_MATERIALS], 'what fills the section'),
  skins: layers('layers of both faces, from outside inwards'),
  upperSkin: layers('layers of the upper face, instead of skins'),
  lowerSkin: layers('layers of the lower face, instead of skins'),
  dBox: labelled(
    'D-box',
    object('sheeting of the nose on both faces', {
      layers: required(layers('from outside inwards')),
      to: required(
        labelled('ends at (to)', quantity('ratio', 'chord station where it ends', { bounds: SHARE, example: '30 %' })),
      ),
    }),
  ),
  spars: record(sparField, 'spars, strips and stiffeners by name', 'spar'),
  joints: record(jointField, 'joints of wing panels by name', 'joint'),
  wires: record(wireField, 'bracing wires by name', 'wire'),
  ribs: object('ribs', {
    material: required(material),
    thickness: required(quantity('length', 'of one rib', { bounds: POSITIVE, example: '2 mm' })),
    spacing: required(quantity('length', 'from rib to rib', { bounds: POSITIVE, example: '60 mm' })),
  }),
  cells: choice(['bonded', 'floating'], 'cells bonded hard, or on soft glue'),
  glueThickness: quantity('length', 'of soft glue under the cells', { bounds: POSITIVE, example: '0.3 mm' }),
  bendingFactor: quantity('ratio', 'bending stiffness by a load test over that of this description', {
    bounds: POSITIVE,
    example: '85 % ± 8 %',
  }),
  torsionFactor: quantity('ratio', 'twisting stiffness by a load test over that of this description', {
    bounds: POSITIVE,
    example: '90 % ± 10 %',
  }),
  hingeStiffness: quantity('force', 'of a bent sheet as hinge: torque per radian and length of hinge', {
    bounds: NOT_NEGATIVE,
  }),
  linkageStiffness: quantity('torque', 'of servo, arm and rod at the control, per radian', { bounds: POSITIVE }),
  servoTorque: quantity('torque', 'that one servo brings to its control before it gives way', {
    bounds: POSITIVE,
    example: '0.15 N m',
  }),
  linkageSlop: quantity('angle', 'free travel of the control to either side of where its servo holds it', {
    bounds: NOT_NEGATIVE,
    usual: { to: 0.05 },
    example: '0.5 deg',
  }),
});

export type StructureDesign = Read<typeof structureField>;
