import { libraryName } from '@noonwing/engine/section';
import { parseQuantity } from '@noonwing/quantities';
import {
  choice,
  flag,
  labelled,
  list,
  NOT_NEGATIVE,
  notation,
  numbers,
  object,
  POSITIVE,
  quantity,
  type Read,
  record,
  required,
  SHARE,
  shortForm,
  text,
} from './schema/field.js';
import { position } from './shared-fields.js';
import { structureField } from './structure-fields.js';

const plateField = object('flat plate section', {
  thickness: required(
    quantity('length', 'thickness', {
      bounds: POSITIVE,
      usual: { from: 0.0005, to: 0.1 },
      example: '6 mm',
      step: '1 mm',
    }),
  ),
  noseLength: quantity('length', 'length over which the nose is rounded or bevelled', { bounds: NOT_NEGATIVE }),
  tailLength: quantity('length', 'length over which the tail is bevelled', { bounds: NOT_NEGATIVE }),
  tailThickness: quantity('length', 'thickness of the trailing edge', { bounds: NOT_NEGATIVE }),
  reflex: quantity('angle', 'trailing edge bent up, from the reflex line aft', { step: '1 deg' }),
  reflexFrom: quantity('ratio', 'chord station of the reflex line', { bounds: SHARE }),
  step: quantity('length', 'height of a step on the upper side', { bounds: NOT_NEGATIVE }),
  stepAt: quantity('ratio', 'chord station of the step', { bounds: SHARE }),
});

interface NamedSection {
  readonly naca?: string | undefined;
  readonly library?: string | undefined;
  readonly file?: string | undefined;
  readonly plate?: Read<typeof plateField> | undefined;
}

const sectionText = notation<NamedSection>(
  'section',
  'NACA 2412, or plate 6 mm, or a coordinate file',
  (written) => {
    const naca = /^NACA\s*[- ]?\s*(\d{4,5})$/i.exec(written.trim());
    if (naca !== null) return { ok: true, value: { naca: naca[1]! } };
    const plate = /^(?:flat\s+)?plate\s+(.+)$/i.exec(written.trim());
    if (plate !== null) {
      const thickness = parseQuantity(plate[1]!, 'length');
      if (thickness.ok && thickness.value > 0) {
        return { ok: true, value: { plate: { thickness: { value: thickness.value, source: 'stated' } } } };
      }
    }
    if (/\.(dat|txt|csv|cor)$/i.test(written.trim())) return { ok: true, value: { file: written.trim() } };
    if (libraryName(written) !== undefined) return { ok: true, value: { library: written.trim() } };
    const expected =
      'a section: NACA with 4 or 5 digits, "plate 6 mm", a name from noonwing section --list such as "flat cells 3", or a coordinate file ending in .dat, .txt or .csv';
    return { ok: false, found: written, expected, hint: 'write "NACA 2412"' };
  },
  (section) => section.file ?? section.library ?? (section.naca === undefined ? '' : `NACA ${section.naca}`),
);

export const sectionField = shortForm(
  'section of the surface',
  sectionText,
  object('section', {
    naca: text('4 or 5 digits'),
    library: text('name from the list of noonwing section --list, such as flat cells 3'),
    file: text('coordinate file, beside the design file'),
    plate: plateField,
    coordinates: list(numbers(2, 'x and y in chords'), 'points from the trailing edge over the upper side and back', 5),
    thickness: quantity('ratio', 'scale the section to this thickness over chord', { bounds: { above: 0, to: 0.5 } }),
  }),
  (short) => short,
  (full) =>
    Object.keys(full).length === 1 && (full.naca ?? full.library ?? full.file) !== undefined ? full : undefined,
);

const stationField = object('station of a surface', {
  y: labelled(
    'distance from the root (y)',
    quantity('length', 'distance from the root along y (to the right)', { example: '600 mm', step: '50 mm' }),
  ),
  z: labelled('height above the root (z)', quantity('length', 'height above the root', { step: '10 mm' })),
  spanShare: quantity('ratio', 'instead of y: share of the half span', { bounds: SHARE, example: '60 %' }),
  chord: required(
    quantity('length', 'chord', {
      bounds: POSITIVE,
      usual: { from: 0.01, to: 3 },
      example: '220 mm',
      step: '10 mm',
    }),
  ),
  leadingEdge: quantity('length', 'leading edge, aft of the root leading edge', { step: '10 mm' }),
  dihedral: quantity('angle', 'dihedral of the panel from here outboard', {
    bounds: { from: -1.6, to: 1.6 },
    step: '1 deg',
  }),
  twist: quantity('angle', 'incidence of the section here, nose up positive', {
    bounds: { from: -0.8, to: 0.8 },
    usual: { from: -0.26, to: 0.26 },
    step: '0.5 deg',
  }),
  section: sectionField,
});

const controlField = object('control', {
  kind: required(choice(['elevator', 'elevon', 'aileron', 'rudder', 'flap', 'ruddervator'], 'what it does')),
  from: labelled(
    'inner end (from)',
    quantity('ratio', 'inner end, share of the half span', { bounds: SHARE, example: '50 %' }),
  ),
  to: labelled(
    'outer end (to)',
    quantity('ratio', 'outer end, share of the half span', { bounds: SHARE, example: '95 %' }),
  ),
  hinge: quantity('ratio', 'chord station of the hinge', { bounds: SHARE, example: '75 %', step: '5 %' }),
  up: labelled(
    'travel up',
    quantity('angle', 'greatest travel up', { bounds: NOT_NEGATIVE, usual: { to: 1.05 }, example: '20 deg' }),
  ),
  down: labelled(
    'travel down',
    quantity('angle', 'greatest travel down', { bounds: NOT_NEGATIVE, usual: { to: 1.05 }, example: '15 deg' }),
  ),
  gap: labelled(
    'gap at the hinge',
    quantity('length', 'open gap between surface and control; 0 mm where tape, film or a skin closes it', {
      bounds: NOT_NEGATIVE,
      usual: { to: 0.01 },
      example: '0 mm',
      step: '0.5 mm',
    }),
  ),
});

export const surfaceField = object('lifting surface or fin', {
  role: choice(['wing', 'tailplane', 'foreplane', 'fin'], 'what it is'),
  ...position('root leading edge', '10 mm'),
  mirrored: flag('the same on the left; usual for wing and tailplane'),
  span: quantity('length', 'from tip to tip, where stations are given as shares of the half span', {
    bounds: POSITIVE,
    usual: { from: 0.1, to: 40 },
    example: '2.4 m',
    step: '100 mm',
  }),
  stations: required(list(stationField, 'stations from root to tip', 2, 'station')),
  incidence: quantity('angle', 'incidence of the whole surface, nose up positive', {
    usual: { from: -0.26, to: 0.26 },
    step: '0.5 deg',
  }),
  section: sectionField,
  construction: choice(
    ['built-up', 'foam', 'foam sheet', 'moulded'],
    'how it is built, for its mass where that is not stated',
  ),
  controls: record(controlField, 'controls by name', 'control'),
  structure: structureField,
});

/** A mass at a place, or spread over a part. */
export const massField = shortForm(
  'a part: its mass, or its mass and place',
  quantity('mass', 'mass', { bounds: NOT_NEGATIVE, example: '45 g weighed' }),
  object('part with mass', {
    mass: required(quantity('mass', 'mass', { bounds: NOT_NEGATIVE, example: '45 g weighed' })),
    ...position('its centre', '5 mm'),
    on: labelled('spread over (on)', text('name of the surface or body that it is spread over, instead of a place')),
    pair: labelled('one on each side (pair)', flag('one on each side, each with this mass')),
    ballast: flag('ballast, which may be moved or left out'),
  }),
  (mass) => ({ mass }),
  (full) => (Object.keys(full).length === 1 ? full.mass : undefined),
);

export type SurfaceDesign = Read<typeof surfaceField>;
export type StationDesign = Read<typeof stationField>;
export type SectionDesign = Read<typeof sectionField>;
export type MassDesign = Read<typeof massField>;
