import { type Outcome, problem, success } from '../result.js';
import { type FlatRow, type Morph, morphedOutline, outlineInFlats } from './flats/morph.js';
import { cosineStations, sectionGeometry } from './geometry.js';
import { type LibraryFamily, type LibraryName, libraryName } from './libraryNames.js';
import { type MeanLine, nacaHalfThickness, nacaSection, sectionFromLaws } from './naca.js';
import { nacaModifiedSection } from './nacaModified.js';
import { arcPlateSection, flatBottomSection } from './plates.js';
import { sectionFromPoints } from './points.js';
import type { SectionGeometry } from './types.js';
import { karmanTrefftz } from './viscous/karmanTrefftz.js';

interface Shape {
  readonly name: string;
  readonly thickness: number;
  readonly camber: number;
  readonly tail: number;
}

const refuse = (name: string, reason: string, remedy: string) =>
  problem({ code: 'section.library', reason, where: name, remedy });

const percent = (share: number): string => `${+(100 * share).toFixed(2)} %`;

/**
 * Mean line without moment in thin-airfoil theory, z = k x (1 - x) (7/8 - x), with its greatest height at the camber.
 * Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory, 1926 (from memory); A1 = A2 makes the moment vanish.
 */
export function zeroMomentMeanLine(camber: number): MeanLine {
  // The derivative 7/8 - 15/4 x + 3 x^2 vanishes here first.
  const top = (15 / 4 - Math.sqrt((15 / 4) ** 2 - 10.5)) / 6;
  const k = camber / (top * (1 - top) * (7 / 8 - top));
  return (x) => ({ ordinate: k * x * (1 - x) * (7 / 8 - x), slope: k * (7 / 8 + x * (3 * x - 15 / 4)) });
}

const zeroMoment = ({ name, thickness, camber }: Shape): Outcome<SectionGeometry> =>
  success(sectionFromLaws(name, zeroMomentMeanLine(camber), (x) => nacaHalfThickness(x, thickness)));

function ellipse({ name, thickness }: Shape): Outcome<SectionGeometry> {
  const stations = cosineStations(120);
  const half = stations.map((x) => thickness * Math.sqrt(x * (1 - x)));
  return success(
    sectionGeometry({
      name,
      x: [...[...stations].reverse(), ...stations.slice(1)],
      y: [...[...half].reverse(), ...half.slice(1).map((y) => -y)],
      noseIndex: stations.length - 1,
    }),
  );
}

/** Circle mapped to a section; its centre is moved until thickness and camber are as asked. */
function mapped({ name, thickness, camber, tail }: Shape): Outcome<SectionGeometry> {
  let [forward, up] = [0.8 * thickness, 2 * camber];
  for (let pass = 0; ; pass++) {
    const { x, y } = karmanTrefftz({ thickness: forward, camber: up, tailAngle: tail, alpha: 0, panels: 240 });
    const made = sectionFromPoints({ name, x: [...x], y: [...y] });
    if (!made.ok) return made;
    if (pass === 30) {
      const isNear = Math.abs(made.value.maximumThickness - thickness) < 1e-3;
      return isNear
        ? made
        : refuse(name, 'its trailing edge alone is thicker', 'give more thickness or a smaller tail angle');
    }
    forward *= Math.min(2, Math.max(0.5, thickness / made.value.maximumThickness));
    if (camber !== 0) up *= Math.min(2, Math.max(0.5, camber / made.value.maximumCamber));
  }
}

const renamed = (made: Outcome<SectionGeometry>, name: string): Outcome<SectionGeometry> =>
  made.ok ? success({ ...made.value, name }, made.warnings) : made;

const MAKERS: Readonly<Record<LibraryFamily, (shape: Shape) => Outcome<SectionGeometry>>> = {
  ellipse,
  'circular arc': ({ name, thickness, camber }) => renamed(arcPlateSection({ thickness, camber }), name),
  'flat bottom': ({ name, thickness }) => renamed(flatBottomSection(thickness), name),
  'zero moment': zeroMoment,
  joukowsky: (shape) => mapped({ ...shape, tail: 0 }),
  'karman-trefftz': mapped,
};

interface FlatCells {
  readonly start: () => Outcome<SectionGeometry>;
  readonly row: FlatRow;
  readonly morph: Morph;
  readonly raised: readonly number[];
}

/**
 * Sections for flat cells, found by `designForFlats` for a Reynolds number of 150 000 and an edge of 0.12 % of the chord.
 * 3: lift 0.6, moment of NACA 3410; 23 % less drag than NACA 3410 under the same cells, 5 to 27 % elsewhere; greatest lift 1.16 against 1.20.
 * 3 tailless: lift 0.4, no moment; 16 % less drag than its start under the same cells, 4 to 15 % elsewhere; greatest lift 1.04 against 1.11.
 */
const FLAT_CELLS: Readonly<Record<string, FlatCells>> = {
  '3': {
    start: () => nacaSection('3410'),
    row: { from: 0.155, cell: 0.25, count: 3 },
    morph: { thickness: 1, shift: -0.28125, bow: -0.005625, lead: -0.0075 },
    raised: [0.005, 0.004],
  },
  '3 tailless': {
    start: () => zeroMoment({ name: 'zero moment 10 % camber 2.5 %', thickness: 0.1, camber: 0.025, tail: 0 }),
    row: { from: 0.2, cell: 0.25, count: 3 },
    morph: { thickness: 1, shift: 0.15, bow: -0.06375, lead: -0.045 },
    raised: [0.006, 0.00025],
  },
};

function flatCells(key: string): Outcome<SectionGeometry> {
  const found = FLAT_CELLS[key];
  const name = `flat cells ${key}`;
  const known = Object.keys(FLAT_CELLS).map((one) => `flat cells ${one}`);
  if (found === undefined) return refuse(name, 'no section is designed for so many flats', `use ${known.join(' or ')}`);
  const start = found.start();
  if (!start.ok) return start;
  const { x, y } = outlineInFlats(morphedOutline(start.value, found.morph), found.row, found.raised);
  return sectionFromPoints({ name, x, y });
}

/** Words with which a name is shown. */
function shownName(name: LibraryName): string {
  if (name.family === 'modified') return `NACA ${name.digits}`;
  if (name.family === 'flat cells') return `flat cells ${name.key}`;
  const { family, thickness, camber, tail } = name;
  const words = { joukowsky: 'Joukowsky', 'karman-trefftz': 'Karman-Trefftz' }[family as string] ?? family;
  const bent = camber === 0 ? '' : ` camber ${percent(camber)}`;
  const ending = family === 'karman-trefftz' ? ` tail ${+((180 * tail) / Math.PI).toFixed(1)} deg` : '';
  return `${words} ${percent(thickness)}${bent}${ending}`;
}

/**
 * Section of the library by its name, such as "Joukowsky 12 % camber 3 %" or "flat cells 3".
 * Returns the geometry, or why there is none.
 */
export function librarySection(text: string): Outcome<SectionGeometry> {
  const name = libraryName(text);
  if (name === undefined)
    return refuse(text, `"${text}" is no section of the library`, 'use a name of noonwing section --list');
  if (name.family === 'modified') return nacaModifiedSection(name.digits);
  if (name.family === 'flat cells') return flatCells(name.key);
  const { family, thickness, camber, tail } = name;
  const shown = shownName(name);
  if (!(thickness >= 0.01 && thickness <= 0.3))
    return refuse(shown, `thickness ${percent(thickness)} of the chord`, 'give 1 to 30 %');
  if (!(Math.abs(camber) <= 0.12)) return refuse(shown, `camber ${percent(camber)} of the chord`, 'give -12 to 12 %');
  if (!(tail <= 0.7)) return refuse(shown, 'the trailing edge is too blunt an angle', 'give at most 40 deg');
  return MAKERS[family]({ name: shown, thickness, camber, tail });
}
