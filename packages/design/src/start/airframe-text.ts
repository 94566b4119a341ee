import { formatExact } from '@noonwing/quantities';

/** Lengths of a new airframe [m]; what the builder answered is not marked as assumed. */
export interface Outline {
  readonly span: number;
  readonly chord: number;
  readonly spanKnown: boolean;
  readonly chordKnown: boolean;
}

/** Whole millimetres, as a builder would write them. */
export const mm = (metres: number): string => formatExact(Math.round(metres * 1000), 'mm');

const marked = (text: string, known: boolean): string => (known ? text : `${text} assumed`);

export type Layout = 'tailed' | 'flying wing' | 'plank';

/** Where the control of the main surface is hinged, as a share of the chord: cells lie ahead of it. */
export const HINGE: Readonly<Record<Layout, number>> = { tailed: 0.76, 'flying wing': 0.78, plank: 0.84 };

/** Usual break of the dihedral, as a share of the half span. */
export const USUAL_BREAK = 0.6;

/** Chord along the half span of the main surface / chord at the root, and its mean. */
interface ChordShare {
  readonly at: (share: number) => number;
  readonly mean: number;
}

/** Constant chord as far as the break, then straight to a tip of 75 %. */
const brokenTaper = (breakAt: number): ChordShare => ({
  at: (share) => 1 - 0.25 * Math.max(0, Math.min(1, (share - breakAt) / (1 - breakAt))),
  mean: 1 - 0.125 * (1 - breakAt),
});

const straightTaper: ChordShare = { at: (share) => 1 - 0.3 * share, mean: 0.85 };

/** Chords of a layout whose dihedral breaks at a share of the half span. */
export const chordShare = (layout: Layout, breakAt = USUAL_BREAK): ChordShare =>
  layout === 'tailed' ? brokenTaper(breakAt) : layout === 'plank' ? { at: () => 1, mean: 1 } : straightTaper;

const degree = Math.PI / 180;

/** Of a wing with a tail, inside and outside of its break [rad]. */
export const DIHEDRAL = { inner: 2 * degree, outer: 6 * degree } as const;

const degrees = (angle: number): string => `${Math.round(angle / degree)} deg`;

/** Half spans and chords follow from the answers; the rest is a usual proportion. */
function tailed({ span, chord, spanKnown, chordKnown }: Outline, breakAt: number): string {
  const half = span / 2;
  const root = chord / brokenTaper(breakAt).mean;
  const tailArea = 0.14 * span * chord;
  const tailSpan = Math.sqrt(4.5 * tailArea);
  const tailChord = tailArea / tailSpan;
  const finArea = 0.065 * span * chord;
  const finHeight = Math.sqrt(1.5 * finArea);
  const aft = 3.9 * chord;
  return `surfaces:
  wing:
    role: wing
    x: 0 mm
    construction: built-up           # built-up, foam, foam sheet or moulded: for its mass, where that is not stated
    section: NACA 3410               # assumed; a coordinate file beside this one may be named instead
    incidence: 2 deg assumed
    stations:
      - {y: 0 mm, chord: ${marked(mm(root), chordKnown)}, dihedral: ${degrees(DIHEDRAL.inner)}}
      - {y: ${marked(mm(breakAt * half), spanKnown)}, chord: ${marked(mm(root), chordKnown)}, dihedral: ${degrees(DIHEDRAL.outer)}}
      - {y: ${marked(mm(half), spanKnown)}, chord: ${mm(0.75 * root)} assumed, leading edge: ${mm(0.06 * root)}, twist: -1 deg assumed}
    controls:
      aileron: {kind: aileron, from: 62 %, to: 96 %, hinge: ${100 * HINGE.tailed} %}
  tailplane:
    role: tailplane
    x: ${mm(aft)} assumed
    z: 20 mm
    construction: built-up
    section: NACA 0007
    stations:
      - {y: 0 mm, chord: ${mm(1.1 * tailChord)} assumed}
      - {y: ${mm(tailSpan / 2)}, chord: ${mm(0.9 * tailChord)} assumed}
    controls:
      elevator: {kind: elevator, hinge: 68 %}
  fin:
    role: fin
    x: ${mm(aft)} assumed
    z: 10 mm
    construction: built-up
    section: NACA 0007
    stations:
      - {z: 0 mm, chord: ${mm((1.2 * finArea) / finHeight)} assumed}
      - {z: ${mm(finHeight)}, chord: ${mm((0.8 * finArea) / finHeight)} assumed, leading edge: ${mm((0.25 * finArea) / finHeight)}}
    controls:
      rudder: {kind: rudder, hinge: 60 %}

bodies:
  pod: {length: ${mm(2.8 * chord)} assumed, width: ${mm(0.045 + 0.02 * (span / 4))} assumed, height: ${mm(0.06 + 0.02 * (span / 4))} assumed, x: ${mm(-1.25 * chord)} assumed, z: -30 mm}
  boom: {length: ${mm(aft - 1.3 * chord)} assumed, diameter: ${mm(0.008 + 0.003 * span)} assumed, x: ${mm(1.5 * chord)} assumed}
`;
}

function flyingWing({ span, chord, spanKnown, chordKnown }: Outline): string {
  const half = span / 2;
  const root = chord / straightTaper.mean;
  const sweep = half * Math.tan((18 * Math.PI) / 180);
  return `surfaces:
  wing:
    role: wing
    x: 0 mm
    construction: foam               # built-up, foam, foam sheet or moulded: for its mass, where that is not stated
    section: NACA 2411               # assumed
    stations:
      - {y: 0 mm, chord: ${marked(mm(root), chordKnown)}, dihedral: 1 deg}
      - {y: ${marked(mm(half), spanKnown)}, chord: ${mm(0.7 * root)} assumed, leading edge: ${mm(sweep)} assumed, twist: -5 deg assumed, section: NACA 0010}
    controls:
      elevon: {kind: elevon, from: 45 %, to: 97 %, hinge: ${100 * HINGE['flying wing']} %}
  winglet:
    role: fin
    mirrored: yes
    x: ${mm(sweep + 0.1 * root)} assumed
    y: ${mm(half)}
    construction: foam
    section: NACA 0007
    stations:
      - {z: 0 mm, chord: ${mm(0.55 * root)} assumed}
      - {z: ${mm(0.8 * chord)}, chord: ${mm(0.35 * root)} assumed, leading edge: ${mm(0.3 * root)}}

bodies:
  pod: {length: ${mm(1.6 * chord)} assumed, width: 50 mm assumed, height: 60 mm assumed, x: ${mm(-0.5 * chord)} assumed}
`;
}

function plank({ span, chord, spanKnown, chordKnown }: Outline): string {
  const half = span / 2;
  const thickness = Math.max(0.006, 0.015 * chord);
  return `surfaces:
  plank:
    role: wing
    x: 0 mm
    construction: foam sheet         # built-up, foam, foam sheet or moulded: for its mass, where that is not stated
    section: {plate: {thickness: ${mm(thickness)} assumed, nose length: ${mm(1.5 * thickness)}, tail length: ${mm(0.15 * chord)}, reflex: 3 deg assumed, reflex from: 80 %}}
    stations:
      - {y: 0 mm, chord: ${marked(mm(chord), chordKnown)}, dihedral: 2 deg}
      - {y: ${marked(mm(half), spanKnown)}, chord: ${marked(mm(chord), chordKnown)}}
    controls:
      elevon: {kind: elevon, from: 10 %, to: 95 %, hinge: ${100 * HINGE.plank} %, up: 22 deg, down: 18 deg}
  fin:
    role: fin
    mirrored: yes                    # one on each side
    x: ${mm(0.68 * chord)} assumed
    y: ${mm(0.7 * half)}
    construction: foam sheet
    section: {plate: {thickness: 4 mm}}
    stations:
      - {z: 0 mm, chord: ${mm(0.32 * chord)} assumed}
      - {z: ${mm(0.22 * chord)}, chord: ${mm(0.2 * chord)} assumed, leading edge: ${mm(0.1 * chord)}}

bodies:
  nose: {length: ${mm(0.85 * chord)} assumed, width: 42 mm assumed, height: 42 mm assumed, x: ${mm(-0.55 * chord)} assumed}
`;
}

const TEXTS: Readonly<Record<Layout, (outline: Outline, breakAt: number) => string>> = {
  tailed,
  'flying wing': flyingWing,
  plank,
};

/** Surfaces and bodies of a usual aircraft of this layout and size, as text of a design file. breakAt - of the dihedral, share of the half span */
export const airframeText = (layout: Layout, outline: Outline, breakAt: number): string =>
  TEXTS[layout](outline, breakAt);

/** Name of the surface that carries the cells. */
export const mainSurface = (layout: Layout): string => (layout === 'plank' ? 'plank' : 'wing');

/**
 * Where the balance point usually lies for this layout, aft of the root leading edge [m]: 33 % of the chord with a tail,
 * 16 % of a plank, and 17 % of the mean chord of a swept wing without tail (common practice).
 */
export function usualBalancePoint(layout: Layout, { span, chord }: Outline): number {
  if (layout === 'tailed') return 0.33 * chord;
  if (layout === 'plank') return 0.16 * chord;
  return 0.17 * chord + 0.47 * (span / 2) * Math.tan((18 * Math.PI) / 180);
}
