import type { Vec3 } from '../math/index.js';
import {
  type Attitude,
  type FlightPattern,
  type IncidenceModel,
  type SkyTerms,
  type SkyTermsTrack,
  skyToBody,
} from '../sun/index.js';
import { beamReader, type CellScene, eachSun } from './cell-geometry.js';
import { type CellDiffuse, cellDiffuse } from './diffuse.js';
import type { ShadeTable } from './shade-table.js';
import type { CellLight, CellLightTrack, PlacedCell } from './types.js';

/**
 * Light on every cell at one instant and attitude: on a leg, at a point of a circle, or where a log says the aircraft was.
 *
 * @param at.sun - unit vector to the apparent sun: east, north, up
 * @param at.terms - light of the sky by origin
 * @param at.attitude - heading, pitch, bank [rad]
 * @returns in the order of the cells
 */
export function cellLightAt(
  scene: {
    readonly cells: readonly PlacedCell[];
    readonly shade: ShadeTable | undefined;
    readonly incidence: IncidenceModel;
  },
  at: { readonly sun: Vec3; readonly terms: SkyTerms; readonly attitude: Attitude },
): readonly CellLight[] {
  const { sun, terms, attitude } = at;
  const isUp = sun[2] > 0;
  const beams = beamReader(scene)(...skyToBody(sun, attitude));
  return cellDiffuse(scene.cells, scene.shade, attitude, scene.incidence).map((shares, i) =>
    lightOn(terms, shares, {
      bare: isUp ? beams.bare[i]! : 0,
      lit: isUp ? beams.lit[i]! : 0,
      beam: isUp ? beams.beam[i]! : 0,
    }),
  );
}

function lightOn(
  terms: SkyTerms,
  { bare, lit, effective }: CellDiffuse,
  beam: { readonly bare: number; readonly lit: number; readonly beam: number },
): CellLight {
  const dome = (shares: CellDiffuse['bare']) => {
    const even = terms.isotropic * shares.sky;
    return even + Math.max(terms.horizon * shares.horizon, -even);
  };
  const towardsSun = terms.direct + terms.circumsolar;
  const [sky, ground] = [dome(lit), terms.ground * lit.ground];
  const reached = towardsSun * beam.lit + sky + ground;
  const open = towardsSun * beam.bare + dome(bare) + terms.ground * bare.ground;
  const inside = towardsSun * beam.beam + dome(effective) + terms.ground * effective.ground;
  return {
    direct: terms.direct * beam.lit,
    circumsolar: terms.circumsolar * beam.lit,
    sky,
    ground,
    shadeLoss: open - reached,
    incidenceLoss: reached - inside,
    effective: inside,
    shadedFraction: beam.bare > 0 ? 1 - beam.lit / beam.bare : 1,
  };
}

/**
 * Light on every cell on every heading at every instant of a track: what strings of unequal cells are computed from.
 * @param terms - sky along the same track
 */
export function cellLightTrack(scene: CellScene, terms: SkyTermsTrack): CellLightTrack {
  const { sun, cells, pattern } = scene;
  const headings = pattern.headings.length;
  const count = cells.length;
  const instants = sun.time.length;
  const effective = new Float64Array(instants * headings * count);
  const shadedFraction = new Float32Array(effective.length).fill(1);
  const shares = cellDiffuse(cells, scene.shade, pattern, scene.incidence);
  const read = beamReader(scene);
  for (let at = 0; at < effective.length; at++) {
    const instant = Math.floor(at / (headings * count));
    const { sky, horizon, ground } = shares[at % count]!.effective;
    const even = terms.isotropic[instant]! * sky;
    effective[at] = even + Math.max(terms.horizon[instant]! * horizon, -even) + terms.ground[instant]! * ground;
  }
  eachSun(sun, pattern, (instant, heading, x, y, z) => {
    const beams = read(x, y, z);
    const towardsSun = terms.direct[instant]! + terms.circumsolar[instant]!;
    const row = (instant * headings + heading) * count;
    for (let i = 0; i < count; i++) {
      effective[row + i]! += towardsSun * beams.beam[i]!;
      shadedFraction[row + i] = beams.bare[i]! > 0 ? 1 - beams.lit[i]! / beams.bare[i]! : 1;
    }
  });
  return { instantCount: instants, headingCount: headings, cellCount: count, effective, shadedFraction };
}

/** A straight leg on one heading. */
export const straightLeg = (attitude: Attitude): FlightPattern => ({
  pitch: attitude.pitch,
  bank: attitude.bank,
  headings: [attitude.heading],
});
