import {
  absoluteAirMass,
  airMassKastenYoung,
  extraterrestrialIrradiance,
  solarConstant,
  standardPressureAt,
} from './air-mass.js';
import { clearSkyIneichen } from './clear-sky.js';
import { skyUnderCloud } from './cloud.js';
import type { SunTrack } from './position.js';

/** Light of the sky along a `SunTrack`, in typed arrays of its length [W/m2]. */
export interface SkyTrack {
  readonly globalHorizontal: Float64Array;
  readonly directNormal: Float64Array;
  readonly diffuseHorizontal: Float64Array;
  /** On a plane facing the sun above the air */
  readonly extraterrestrial: Float64Array;
  /** Relative air mass [-] */
  readonly airMass: Float64Array;
}

/**
 * Clear sky along a track of sun positions.
 * @param sun - track
 * @param sky.turbidity - Linke turbidity [-]
 * @param sky.altitude - above sea level [m]
 * @param sky.pressure - at the place [Pa], default standard at the altitude
 * @param sky.solarConstant - [W/m2], default 1361
 * @param known - another sky along the same track: its air mass and extraterrestrial light are taken over, not computed again
 * @returns light at every instant; zero by night
 * Source: as `clearSkyIneichen`, `airMassKastenYoung`.
 */
export function clearSkyTrack(
  sun: SunTrack,
  sky: {
    readonly turbidity: number;
    readonly altitude: number;
    readonly pressure?: number;
    readonly solarConstant?: number;
  },
  known?: Pick<SkyTrack, 'airMass' | 'extraterrestrial'>,
): SkyTrack {
  const count = sun.time.length;
  const column = () => new Float64Array(count);
  const track = {
    globalHorizontal: column(),
    directNormal: column(),
    diffuseHorizontal: column(),
    extraterrestrial: known?.extraterrestrial ?? column(),
    airMass: known?.airMass ?? column(),
  };
  const pressure = sky.pressure ?? standardPressureAt(sky.altitude);
  for (let index = 0; index < count; index++) {
    const apparentZenith = sun.apparentZenith[index]!;
    if (known === undefined) {
      track.airMass[index] = airMassKastenYoung(apparentZenith);
      track.extraterrestrial[index] = extraterrestrialIrradiance(
        sun.distance[index]!,
        sky.solarConstant ?? solarConstant,
      );
    }
    const [airMass, extraterrestrial] = [track.airMass[index]!, track.extraterrestrial[index]!];
    if (apparentZenith >= Math.PI / 2) continue;
    const light = clearSkyIneichen({
      apparentZenith,
      turbidity: sky.turbidity,
      altitude: sky.altitude,
      extraterrestrial,
      absoluteAirMass: absoluteAirMass(airMass, pressure),
    });
    track.globalHorizontal[index] = light.globalHorizontal;
    track.directNormal[index] = light.directNormal;
    track.diffuseHorizontal[index] = light.diffuseHorizontal;
  }
  return track;
}

/**
 * A clear-sky track under cloud.
 * @param clear - clear sky
 * @param sun - the track that it belongs to
 * @param clearSkyIndex - one value, or one for each instant, 0 to 1.5
 * @returns light under cloud; extraterrestrial irradiance and air mass are shared with the clear track
 */
export function cloudyTrack(clear: SkyTrack, sun: SunTrack, clearSkyIndex: number | ArrayLike<number>): SkyTrack {
  const count = sun.time.length;
  const [globalHorizontal, directNormal, diffuseHorizontal] = [0, 1, 2].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let index = 0; index < count; index++) {
    const light = skyUnderCloud(
      {
        globalHorizontal: clear.globalHorizontal[index]!,
        directNormal: clear.directNormal[index]!,
        diffuseHorizontal: clear.diffuseHorizontal[index]!,
      },
      {
        clearSkyIndex: typeof clearSkyIndex === 'number' ? clearSkyIndex : clearSkyIndex[index]!,
        cosZenith: sun.up[index]!,
        extraterrestrial: clear.extraterrestrial[index]!,
      },
    );
    globalHorizontal[index] = light.globalHorizontal;
    directNormal[index] = light.directNormal;
    diffuseHorizontal[index] = light.diffuseHorizontal;
  }
  return { ...clear, globalHorizontal, directNormal, diffuseHorizontal };
}
