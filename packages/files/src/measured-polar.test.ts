import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeTable } from './column.js';
import { parseMeasuredPolar } from './measured-polar.js';

const read = (text: string) => {
  const outcome = parseMeasuredPolar(text);
  if (!outcome.ok) throw new Error(`${outcome.reason} ${outcome.where}`);
  return outcome;
};
const why = (text: string) => {
  const outcome = parseMeasuredPolar(text);
  return outcome.ok ? 'read' : `${outcome.where}: ${outcome.reason} ${outcome.remedy}`;
};
const heads = 'Reynolds number,incidence (deg),lift,drag,moment';

describe('parseMeasuredPolar', () => {
  it('reads points with units, comments and gaps', () => {
    const { value, warnings } = read(`# tunnel of the club\n${heads}\n200000,4,0.8,0.0121,-0.08\n200000,5,0.9,,\n`);
    expect(warnings).toEqual([]);
    expect(value.comments).toEqual(['tunnel of the club']);
    expect(value.rows).toEqual([
      { line: 3, reynolds: 200000, incidence: (4 * Math.PI) / 180, lift: 0.8, drag: 0.0121, moment: -0.08 },
      { line: 4, reynolds: 200000, incidence: (5 * Math.PI) / 180, lift: 0.9 },
    ]);
  });

  it('reads radians, decimal commas and names that people write, and names the columns it does not use', () => {
    const { value, warnings } = read('Re;alpha (rad);cl;cd;note\n100000;0,05;0,41;0,0153;calm\n');
    expect(value.rows[0]).toEqual({ line: 2, reynolds: 100000, incidence: 0.05, lift: 0.41, drag: 0.0153 });
    expect(warnings.map(({ message }) => message)).toEqual(['Not used: note.']);
  });

  it('refuses what it cannot use with place, found and expected', () => {
    expect(why(`${heads}\n200000,4,high,0.01,\n`)).toContain(
      'line 2, column "lift": "high" was found, where a lift coeff',
    );
    expect(why(`${heads}\n200000,4,0.5,-0.01,\n`)).toContain('line 2, column "drag": "-0.01"');
    expect(why(`${heads}\n200,4,0.5,0.01,\n`)).toContain('a number from 10000');
    expect(why(`${heads}\n200000,4,nan,0.01,\n`)).toContain('"nan" was found');
    expect(why(`${heads}\n200000,4,,0.01,\n`)).toContain('line 2: The lift is empty');
    expect(why(`${heads}\n200000,,0.5,,\n`)).toContain('Neither incidence nor drag');
    expect(why('lift,moment\n0.5,0.01\n')).toContain('No column of Reynolds number and incidence or drag');
    expect(why(`${heads}\n`)).toContain('no points');
    expect(why('Reynolds number,incidence (kg),lift\n1e5,2,0.4\n')).toContain('not a unit of angle');
  });

  it('loses no point: what is written comes back', () => {
    const point = fc.record({
      reynolds: fc.integer({ min: 20000, max: 900000 }),
      incidence: fc.integer({ min: -12, max: 18 }),
      lift: fc.double({ min: -1, max: 2, noNaN: true }),
      drag: fc.double({ min: 0.004, max: 0.3, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 30 }), (points) => {
        const rows = points.map(({ reynolds, incidence, lift, drag }) => [reynolds, incidence, lift, drag]);
        const { value } = read(writeTable(['Reynolds number', 'incidence (deg)', 'lift', 'drag'], rows));
        expect(value.rows.length).toBe(points.length);
        points.forEach(({ lift, drag, reynolds }, k) => {
          expect(value.rows[k]).toMatchObject({ reynolds, lift: lift + 0, drag });
        });
      }),
    );
  });
});
