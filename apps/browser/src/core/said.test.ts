import { afterEach, describe, expect, it } from 'vitest';
import { fixed, localDrawing, localNumbers, setDecimalMark } from './decimal.js';
import { areaWords, exactWords, lengthWords, massWords, speedWords, unitOnce } from './said.js';

const usual = { units: {}, language: 'en' };

afterEach(() => setDecimalMark('.'));

describe('numbers in words', () => {
  it('keep the point where the language has it', () => {
    expect(localNumbers('17.9 W are needed')).toBe('17.9 W are needed');
    expect(localDrawing('<text x="1.5">1.5</text>')).toBe('<text x="1.5">1.5</text>');
  });
  it('take the comma of the person, and names keep theirs', () => {
    setDecimalMark(',');
    expect(localNumbers('at best 2.1, −0.35 and (0.5)')).toBe('at best 2,1, −0,35 and (0,5)');
    expect(localNumbers('propeller 10x4.7, file v1.2, format 1.2.3, 09:30')).toBe(
      'propeller 10x4.7, file v1.2, format 1.2.3, 09:30',
    );
    expect(fixed(1.25, 1)).toMatch(/^1,[23]$/);
  });
  it('change what a drawing says and not where it stands', () => {
    setDecimalMark(',');
    expect(localDrawing('<path d="M1.5 2.5"/><text x="1.5" y="2.5">need 17.9 W</text><style>a{r:1.5px}</style>')).toBe(
      '<path d="M1.5 2.5"/><text x="1.5" y="2.5">need 17,9 W</text><style>a{r:1.5px}</style>',
    );
  });
  it('say masses in g below 1 kg and stations in mm, unless another unit is preferred', () => {
    expect(massWords(0.392, usual)).toBe('392 g');
    expect(massWords(0.9998, usual)).toBe('1.00 kg');
    expect(massWords(1.318, usual)).toBe('1.32 kg');
    expect(lengthWords(-0.0431, usual)).toBe('-43 mm');
    expect(massWords(0.4536, { ...usual, units: { mass: 'lb' } })).toContain('lb');
    expect(lengthWords(0.0254, { ...usual, units: { length: 'in' } })).toBe('1.00 in');
    expect(areaWords(0.515, usual)).toBe('0.515 m²');
  });
  it('say airspeeds to a tenth below ten of the unit shown, and to three digits above', () => {
    const of = (speed: number) => speedWords(speed, usual);
    expect([0.0811, 0.811, 7.56, 9.96, 9.999, 12.04, 101.6].map(of)).toEqual(
      ['0.081', '0.81', '7.6', '10.0', '10.0', '12.0', '102'].map((text) => `${text} m/s`),
    );
    expect(speedWords(9, { ...usual, units: { speed: 'km/h' } })).toBe('32.4 km/h');
    expect(speedWords(2, { ...usual, language: 'de', units: { speed: 'km/h' } })).toBe('7,2 km/h');
  });
});

describe('a unit', () => {
  it('is said once with a spread', () => {
    expect(unitOnce('20.1 deg ± 4.0 deg')).toBe('20.1 ± 4.0 deg');
    expect(unitOnce('1.31 kg ± 29 g')).toBe('1.31 kg ± 29 g');
    expect(unitOnce('10 % ± 8 %')).toBe('10 ± 8 %');
    expect(unitOnce('1.25 ± 0.05')).toBe('1.25 ± 0.05');
    expect(unitOnce('20 deg')).toBe('20 deg');
  });
});

describe('a value without a spread', () => {
  it('says no zeros that nobody measured, and one with a spread keeps them', () => {
    expect(['1.250', '1.000', '300 mm', '1.20 kg', '0.5', '10', '1.50 ± 0.20 kg'].map(exactWords)).toEqual([
      '1.25',
      '1',
      '300 mm',
      '1.2 kg',
      '0.5',
      '10',
      '1.50 ± 0.20 kg',
    ]);
  });
});
