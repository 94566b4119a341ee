import type { Relation, RelationValues } from '../relation.js';
import { airAt } from './air.js';
import { densityAltitude, highestGeopotential, lowestGeopotential } from './standard.js';
import { gustiness, windAtHeight } from './wind.js';

const numberOf = (values: RelationValues, key: string): number => values[key] as number;

const airRelation: Relation = {
  topic: 'air',
  title: 'Standard atmosphere with temperature offset and humidity',
  inputs: [
    { key: 'altitude', kind: 'length', help: 'above mean sea level', default: 0 },
    { key: 'temperatureOffset', kind: 'temperature difference', help: 'above the standard temperature', default: 0 },
    { key: 'relativeHumidity', kind: 'ratio', help: '0 to 1', default: 0 },
    { key: 'seaLevelPressure', kind: 'pressure', help: 'pressure at sea level', default: 101325 },
  ],
  outputs: [
    { key: 'temperature', kind: 'temperature', help: 'air temperature' },
    { key: 'pressure', kind: 'pressure', help: 'static pressure' },
    { key: 'density', kind: 'density', help: 'air density' },
    { key: 'dynamicViscosity', kind: 'dynamic viscosity', help: 'dynamic viscosity' },
    { key: 'kinematicViscosity', kind: 'kinematic viscosity', help: 'kinematic viscosity' },
    { key: 'soundSpeed', kind: 'speed', help: 'speed of sound' },
    { key: 'thermalConductivity', kind: 'thermal conductivity', help: 'thermal conductivity' },
    { key: 'prandtl', kind: 'ratio', help: 'Prandtl number' },
    {
      key: 'densityAltitude',
      kind: 'length',
      help: 'geopotential altitude of this density in the standard atmosphere',
    },
  ],
  compute: (values) => {
    const altitude = numberOf(values, 'altitude');
    const temperatureOffset = numberOf(values, 'temperatureOffset');
    const relativeHumidity = numberOf(values, 'relativeHumidity');
    const seaLevelPressure = numberOf(values, 'seaLevelPressure');
    if (altitude < lowestGeopotential || altitude > highestGeopotential) {
      return { reason: 'the atmosphere kept here ends there', remedy: 'give an altitude from -5000 m to 32000 m' };
    }
    if (Math.abs(temperatureOffset) > 60) {
      return { reason: 'no such air occurs', remedy: 'give a temperature offset within 60 K' };
    }
    if (relativeHumidity < 0 || relativeHumidity > 1) {
      return { reason: 'relative humidity is a share', remedy: 'give a relative humidity from 0 to 1' };
    }
    if (seaLevelPressure < 80000 || seaLevelPressure > 110000) {
      return { reason: 'no such sea-level pressure occurs', remedy: 'give a pressure from 800 hPa to 1100 hPa' };
    }
    const air = airAt({ altitude, temperatureOffset, relativeHumidity, seaLevelPressure });
    return { ...air, densityAltitude: densityAltitude(air.density) };
  },
};

const windRelation: Relation = {
  topic: 'wind',
  title: 'Wind and gusts at a height from a reading at another',
  inputs: [
    { key: 'height', kind: 'length', help: 'above ground, where the wind is wanted' },
    { key: 'referenceSpeed', kind: 'speed', help: 'mean wind at the reference height' },
    { key: 'referenceHeight', kind: 'length', help: 'of the reading, above ground', default: 10 },
    { key: 'law', kind: 'choice', choices: ['logarithmic', 'power'], help: 'wind profile', default: 'logarithmic' },
    { key: 'roughness', kind: 'length', help: 'roughness length of the ground (open grass 0.03 m)', default: 0.03 },
    { key: 'exponent', kind: 'ratio', help: 'of the power law', default: 1 / 7 },
  ],
  outputs: [
    { key: 'speed', kind: 'speed', help: 'mean wind' },
    { key: 'alongWind', kind: 'speed', help: 'standard deviation of turbulence along the wind' },
    { key: 'acrossWind', kind: 'speed', help: 'the same across the wind' },
    { key: 'vertical', kind: 'speed', help: 'the same up and down' },
    { key: 'peak', kind: 'speed', help: 'gust to expect within ten minutes' },
  ],
  compute: (values) => {
    const height = numberOf(values, 'height');
    const referenceHeight = numberOf(values, 'referenceHeight');
    const referenceSpeed = numberOf(values, 'referenceSpeed');
    const roughness = numberOf(values, 'roughness');
    const exponent = numberOf(values, 'exponent');
    if (!(height >= 0 && height <= 1000 && referenceHeight > 0 && referenceHeight <= 1000)) {
      return { reason: 'the wind laws hold near the ground', remedy: 'give heights above 0 m and up to 1000 m' };
    }
    if (!(referenceSpeed >= 0 && referenceSpeed <= 100)) {
      return { reason: 'no such wind occurs', remedy: 'give a speed from 0 to 100 m/s' };
    }
    if (!(roughness >= 1e-5 && roughness <= 3)) {
      return { reason: 'no such ground occurs', remedy: 'give a roughness length from 0.00001 m to 3 m' };
    }
    if (!(exponent >= 0 && exponent <= 1)) {
      return { reason: 'no such wind profile occurs', remedy: 'give an exponent from 0 to 1' };
    }
    const law =
      values.law === 'power' ? { kind: 'power' as const, exponent } : { kind: 'logarithmic' as const, roughness };
    const speed = windAtHeight({ height, referenceSpeed, referenceHeight, law });
    return { speed, ...gustiness({ speed, height, roughness }) };
  },
};

/** Relations of this folder that can be asked for on their own. */
export const airRelations: readonly Relation[] = [airRelation, windRelation];
