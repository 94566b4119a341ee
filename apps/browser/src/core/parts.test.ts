import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { importFiles, zipProject } from './archive.js';
import { decimalMark } from './decimal.js';
import { answered, fieldInput, isBare, nextInput, withUnit, writtenUnit } from './field-input.js';
import { fieldValue, keysAt, textFor } from './fields.js';
import { fieldOf } from './finding.js';
import { type FolderAccess, outsideChanges, readFolder, writeFolder } from './folder.js';
import { acceptFile, acceptName, greatestFile } from './names.js';
import { backward, difference, forward, PatchMismatch } from './patch.js';
import { listedPlaces } from './place-list.js';
import { coordinateEdits, distanceBetween, findPlaces, nearestPlace, placeEdits } from './places.js';
import { fileRole, freePath } from './project.js';
import { shownQuantity } from './shown-quantity.js';
import { importIrradiance, importWeather, zoneText } from './weather.js';

const text = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const degree = Math.PI / 180;

describe('patches', () => {
  const data = fc.letrec((tie) => ({
    value: fc.oneof(
      { maxDepth: 3 },
      fc.string({ maxLength: 200, minLength: 0 }),
      fc.integer(),
      fc.boolean(),
      fc.constant(null),
      fc.array(fc.integer(), { maxLength: 3 }),
      fc.dictionary(fc.string({ maxLength: 3 }), tie('value'), { maxKeys: 4 }),
    ),
  })).value;
  it('lead from any state to any other and back', () => {
    fc.assert(
      fc.property(data, data, (a, b) => {
        const patches = difference({ a }, { a: b });
        expect(forward({ a }, patches)).toEqual({ a: b });
        expect(backward({ a: b }, patches)).toEqual({ a });
        expect(JSON.parse(JSON.stringify(patches))).toEqual(patches);
      }),
    );
  });
  it('keep only the changed part of a long text, and refuse another text', () => {
    const long = 'x'.repeat(5000);
    const patches = difference({ t: `${long}1${long}` }, { t: `${long}22${long}` });
    expect(JSON.stringify(patches).length).toBeLessThan(100);
    expect(() => forward({ t: 'y' }, patches)).toThrow(PatchMismatch);
  });
});

describe('names and files', () => {
  it('stay inside the folder, visible and storable', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (wanted) => {
        const name = acceptName(wanted);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not be there
        expect(name).not.toMatch(/[\u0000-\u001f\u202a-\u202e<>:"|?*\\]|(^|\/)\.\.?(\/|$)|^\//);
        expect(name.length).toBeGreaterThan(0);
        expect(acceptName(name)).toBe(name);
      }),
    );
    expect(acceptName('CON.yaml')).toBe('_CON.yaml');
    expect(acceptName('a\u202egpj.yaml')).toBe('a gpj.yaml');
    expect(acceptName(`${'n'.repeat(300)}.day.yaml`)).toMatch(/^n{90,}\.day\.yaml$/);
  });
  it('refuse what is no text or too large, and read old letters', () => {
    expect(acceptFile('a.yaml', new Uint8Array([0x89, 0x50, 0, 0, 1])).ok).toBe(false);
    expect(acceptFile('a.yaml', new Uint8Array(greatestFile + 1)).ok).toBe(false);
    expect(acceptFile('a.txt', new Uint8Array([0x4d, 0xfc, 0x6c]))).toEqual({ ok: true, text: 'Mül' });
    expect(acceptFile('a.txt', new Uint8Array([0xff, 0xfe, 0x41, 0]))).toEqual({ ok: true, text: 'A' });
  });
  it('know their role', () => {
    expect(fileRole('a.day.yaml')).toBe('plan');
    expect(fileRole('a.yaml', '# x\nnoonwing: day 1')).toBe('plan');
    expect(fileRole('s.DAT')).toBe('section');
    expect(freePath({ 'a.day.yaml': '', 'a 2.day.yaml': '' }, 'a.day.yaml')).toBe('a 3.day.yaml');
  });
});

describe('archives', () => {
  it('give back what was packed, without the folder around it', () => {
    const files = { 'a.yaml': 'noonwing: design 1\nname: ü\n', 'sections/tip.dat': '1 0\n' };
    expect(importFiles([{ name: 'p.zip', bytes: zipProject({ files }) }])).toEqual({ files, refused: [] });
    const nested = zipProject({ files: { 'p/a.yaml': '1', 'p/b/c.dat': '2', '__MACOSX/x': 'n', '.hidden': 'h' } });
    expect(importFiles([{ name: 'p.zip', bytes: nested }]).files).toEqual({ 'a.yaml': '1', 'b/c.dat': '2' });
    expect(zipProject({ files })).toEqual(zipProject({ files }));
  });
  it('report what they cannot take', () => {
    const broken = zipProject({ files: { a: 'x'.repeat(1000) } }).slice(0, 60);
    const answer = importFiles([
      { name: 'p.zip', bytes: broken },
      { name: 'picture.png', bytes: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0]) },
      { name: 'ok.yaml', bytes: new TextEncoder().encode('a: 1') },
    ]);
    expect(answer.files).toEqual({ 'ok.yaml': 'a: 1' });
    expect(answer.refused).toHaveLength(2);
  });
});

function fakeFolder(files: Record<string, { content: string; time: number }>): FolderAccess {
  let clock = 1000;
  return {
    name: 'folder',
    list: async () =>
      Object.entries(files).map(([path, { content, time }]) => ({ path, lastModified: time, size: content.length })),
    read: async (path) => new TextEncoder().encode(files[path]!.content),
    write: async (path, content) => {
      if (path === 'locked') throw new Error('not allowed');
      files[path] = { content, time: ++clock };
    },
    remove: async (path) => {
      delete files[path];
    },
  };
}

describe('a folder', () => {
  it('takes what changed outside, asks where both changed, and writes the rest', async () => {
    const disk: Record<string, { content: string; time: number }> = Object.fromEntries(
      ['a', 'b', 'c', 'd'].map((path) => [path, { content: path, time: 1 }]),
    );
    disk['picture.bin'] = { content: '\0\0\0', time: 1 };
    const folder = fakeFolder(disk);
    const { state, refused } = await readFolder(folder);
    expect(refused.map(({ name }) => name)).toEqual(['picture.bin']);
    disk.a = { content: 'a outside', time: 2 };
    disk.b = { content: 'b outside', time: 2 };
    delete disk.d;
    const here = { a: 'a', b: 'b here', c: 'c here', d: 'd', e: 'new', locked: 'x' };
    const changes = await outsideChanges(folder, state, here);
    expect(changes.taken).toEqual({ a: 'a outside', d: null });
    expect(changes.conflicts).toEqual([{ path: 'b', here: 'b here', outside: 'b outside' }]);
    const written = await writeFolder(folder, state, here);
    expect(disk).toMatchObject({
      a: { content: 'a outside' },
      b: { content: 'b outside' },
      c: { content: 'c here' },
      e: { content: 'new' },
    });
    expect(written.conflicts.map(({ path }) => path)).toEqual(['b']);
    expect(written.failed).toEqual([{ path: 'locked', reason: 'not allowed' }]);
    await writeFolder(folder, written.state, { ...here, a: 'a outside' }, new Set(['b']));
    expect(disk.b!.content).toBe('b here');
    expect(disk['picture.bin']!.content).toBe('\0\0\0');
  });
});

describe('an input', () => {
  const rules = { kinds: ['length'] as const, step: 0.01 };
  it('reads a bare number in the unit shown, and other units as typed', () => {
    expect(withUnit('380', 'mm')).toBe('380 mm');
    expect(withUnit('380 ± 2', 'mm')).toBe('380 mm ± 2 mm');
    expect(withUnit('15 in', 'mm')).toBe('15 in');
    expect(withUnit('', 'mm')).toBe('');
  });
  it('steps by the natural step, from between two steps to the next one', () => {
    let input = fieldInput('380 mm', 'length', 'mm');
    const up = nextInput(input, rules, { kind: 'step', times: 1 });
    expect(up.set).toBe('390 mm');
    input = nextInput(input, rules, { kind: 'type', text: '383 mm ± 2 mm' }).input;
    expect(nextInput(input, rules, { kind: 'step', times: 1 }).set).toBe('390 mm ± 2 mm');
    expect(nextInput(input, rules, { kind: 'step', times: -1 }).set).toBe('380 mm ± 2 mm');
    const inches = nextInput(fieldInput('15 in', 'length', 'mm'), rules, { kind: 'step', times: 1 });
    expect(inches.set).toMatch(/ in$/);
    const warm = { kinds: ['temperature'] as const };
    expect(nextInput(fieldInput('25 degC', 'temperature', 'degC'), warm, { kind: 'step', times: 1 }).set).toBe(
      '26 degC',
    );
  });
  it('restores by Escape, keeps what was refused, and follows the file unless typing', () => {
    const typed = nextInput(fieldInput('1 m', 'length', 'm'), rules, { kind: 'type', text: 'long' }).input;
    const committed = nextInput(typed, rules, { kind: 'commit' });
    const said = answered(committed.input, { ok: false, reason: 'found "long"', remedy: 'write a number' });
    expect(said).toMatchObject({ text: 'long', problem: 'found "long"; write a number' });
    expect(nextInput(said, rules, { kind: 'escape' })).toMatchObject({ input: { text: '1 m' }, set: '1 m' });
    expect(nextInput(typed, rules, { kind: 'changed', shown: '2 m' }).input.text).toBe('long');
    expect(nextInput(said, rules, { kind: 'step', times: 1 }).input.problem).toBeTruthy();
  });
  it('shows in the unit and with the decimal mark of the person', () => {
    const units = { length: 'in' } as const;
    expect(shownQuantity({ value: 0.381 }, 'length', { units })).toBe('15.00 in');
    expect(shownQuantity({ value: 0.0381 }, 'length', { units: {}, language: 'de' })).toBe('38,1 mm');
    expect(decimalMark('no such tag')).toBe('.');
  });
});

describe('values of fields', () => {
  const alondra = text('alondra.yaml');
  it('tell value, spread, source, step and default', () => {
    expect(fieldValue('design', alondra, 'battery.x')).toMatchObject({
      text: '20 mm',
      value: 0.02,
      source: 'stated',
      step: 0.005,
    });
    expect(fieldValue('design', alondra, 'masses.pod.mass')).toMatchObject({ source: 'measured', value: 0.092 });
    const open = fieldValue('design', alondra, 'regulator efficiency')!;
    expect(open).toMatchObject({ written: false, text: '', source: 'assumed', value: 0.88 });
    expect(open.defaultText).toContain('±');
    expect(fieldValue('design', alondra, 'battery.usable')).toMatchObject({
      bounds: { from: 0, to: 1 },
      limits: 'from 0 to 1',
    });
    expect(fieldValue('design', alondra, 'no.such.key')).toBeUndefined();
    expect(fieldValue('design', alondra, 'array.converters.tracker.topology')?.source).not.toBe('stated');
  });
  it('give the keys of groups and lists', () => {
    expect(keysAt('design', alondra, 'surfaces')).toEqual(['wing', 'tailplane', 'fin']);
    expect(keysAt('design', alondra, 'surfaces.wing.stations')).toEqual(['[1]', '[2]', '[3]']);
  });
  it('write in the unit that was used before', () => {
    expect(textFor({ value: 0.381 }, 'length', '15.5 in')).toBe('15 in');
    expect(textFor({ value: 0.5, sigma: 0.01 }, 'mass', '420 g ± 5 g weighed', 'weighed')).toBe('500 g ± 10 g weighed');
    expect(textFor({ value: 0.5 }, 'mass', '')).toBe('500 g');
  });
  it('find the field of a finding', () => {
    expect(fieldOf('battery.x')).toEqual({ file: 'design', path: 'battery.x' });
    expect(fieldOf('day plan: wind')).toEqual({ file: 'day', path: 'wind' });
    expect(fieldOf('flight: airspeed')).toEqual({ file: 'design', path: 'flight.airspeed' });
    expect(fieldOf('linear equations')).toBeUndefined();
  });
});

describe('places', () => {
  it('are on the earth, unique, in zones that exist, on clocks that fit their longitude', () => {
    expect(listedPlaces.length).toBeGreaterThanOrEqual(150);
    expect(new Set(listedPlaces.map(({ name }) => name)).size).toBe(listedPlaces.length);
    for (const { name, latitude, longitude, altitude, zone } of listedPlaces) {
      expect(Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180 && altitude >= 0 && altitude < 5000, name).toBe(
        true,
      );
      const parts = new Intl.DateTimeFormat('en', { timeZone: zone, hour: 'numeric', hourCycle: 'h23' }).format(
        new Date(Date.UTC(2026, 0, 15, 12)),
      );
      const ahead = ((Number(parts) - 12 + 36) % 24) - 12;
      // Standard time differs from sun time by at most three and a half hours (western China).
      expect(Math.abs(((ahead - longitude / 15 + 36) % 24) - 12), name).toBeLessThan(3.6);
    }
  });
  it('are found by letters without accents, and by nearness', () => {
    expect(findPlaces('zur')[0]!.name).toBe('Zurich');
    expect(findPlaces('')).toEqual([]);
    expect(nearestPlace({ latitude: 40.71 * degree, longitude: 0.9 * degree }).place.name).toBe('Ebro delta');
    // A quarter of the meridian: half of pi earth radii.
    expect(distanceBetween({ latitude: 0, longitude: 0 }, { latitude: 90 * degree, longitude: 0 })).toBeCloseTo(
      10_007_543,
      -1,
    );
    expect(placeEdits(findPlaces('Lisbon')[0]!)).toContainEqual({ path: 'time zone', text: 'Europe/Lisbon' });
    expect(coordinateEdits({ latitude: -50 * degree, longitude: -120 * degree }).edits).toContainEqual({
      path: 'time zone',
    });
  });
  it('say their clock', () => {
    expect(zoneText('Europe/Madrid', { year: 2026, month: 6, day: 21 })).toBe('Europe/Madrid, UTC+2 on this date');
    expect(zoneText('Asia/Kathmandu', { year: 2026, month: 6, day: 21 })).toContain('UTC+5:45');
    expect(zoneText('No/Where', { year: 2026, month: 6, day: 21 })).toContain('not known');
  });
});

describe('measured light', () => {
  const plan = {
    latitude: 40.7 * degree,
    longitude: 0.9 * degree,
    altitude: 0,
    midnight: Date.UTC(2026, 5, 20, 22) / 1000,
    utcOffset: 7200,
  };
  it('becomes clearness and temperatures of the day; its own clear sky is clear', () => {
    const first = importIrradiance(`time,irradiance (W/m2)\n${[9, 12, 15].map((h) => `${h}:00,500`).join('\n')}`, plan);
    if (!first.ok) throw new Error(first.reason);
    const rows = Array.from(first.day.course.hours, (h, i) => `${h}:00;${0.7 * first.day.course.clear[i]!};${20 + i}`);
    const again = importIrradiance(`time;GHI (W/m2);temperature (degC)\n${rows.join('\n')}`, plan);
    if (!again.ok) throw new Error(again.reason);
    expect(again.day.edits).toEqual([
      { path: 'clearness', text: '70 % ± 5 %' },
      { path: 'temperature', text: '22 degC ± 1 K' },
      { path: 'night temperature', text: '20 degC ± 1 K' },
    ]);
  });
  it('of another day, or without a column of light, is refused with the way out', () => {
    expect(importIrradiance('time,irradiance\n2020-01-01T12:00Z,500\n', plan)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('day of the plan'),
    });
    expect(importIrradiance('time,pressure\n12:00,1000\n', plan)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('pressure'),
    });
  });
  it('of a weather year gives its day', () => {
    const row = (hour: number, light: number) =>
      `2001,6,21,${hour},60,x,20,12,60,101300,0,0,300,${light},${light > 0 ? 700 : 0},${light > 0 ? 100 : 0},0,0,0,0,180,3,5,5,20,77777,9,999999999,150,0.1,0,88,0.2,0,0`;
    const head = `LOCATION,Delta,-,ESP,invented,1,40.7,0.9,1.0,2\n${'x\n'.repeat(6)}DATA PERIODS,1,1,Data,Sunday,1/1,12/31\n`;
    const file = head + Array.from({ length: 24 }, (_, i) => row(i + 1, i > 5 && i < 19 ? 600 : 0)).join('\n');
    const answer = importWeather(file, { year: 2026, month: 6, day: 21 });
    if (!answer.ok) throw new Error(answer.reason);
    expect(answer.day.edits.map(({ path }) => path)).toEqual([
      'humidity',
      'clearness',
      'temperature',
      'night temperature',
    ]);
    expect(answer.day.course.clear[11]).toBeGreaterThan(850);
    expect(answer.day.course.clear[0]).toBe(0);
    expect(importWeather(file, { year: 2026, month: 7, day: 1 })).toMatchObject({ ok: false });
    expect(importWeather('no weather', { year: 2026, month: 7, day: 1 })).toMatchObject({ ok: false });
  });
});

describe('the unit of a bare number', () => {
  it('is the one that stands in the field', () => {
    expect(writtenUnit('15 in ± 0.5 in measured', 'length')).toBe('in');
    const shown = fieldInput('900 m', 'length', writtenUnit('900 m', 'length')!);
    const typed = nextInput(shown, { kinds: ['length'] }, { kind: 'type', text: '20' }).input;
    expect(isBare(typed.text)).toBe(true);
    expect(nextInput(typed, { kinds: ['length'] }, { kind: 'commit' }).set).toBe('20 m');
    const inches = nextInput(
      fieldInput('15 in', 'length', 'in'),
      { kinds: ['length'] },
      { kind: 'type', text: '16' },
    ).input;
    expect(nextInput(inches, { kinds: ['length'] }, { kind: 'commit' }).set).toBe('16 in');
    expect(isBare('16 in')).toBe(false);
  });
});
