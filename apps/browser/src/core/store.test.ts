import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from './commands.js';
import { valueAt } from './fields.js';
import { canRedo, canUndo, historyList, undoLabel } from './history.js';
import type { Example } from './project.js';
import { activeOf, type Work } from './state.js';
import { memoryStorage, type Storage } from './storage.js';
import { createAppStore } from './store.js';
import { counter, crashingStorage, fakeBrowser, smallStorage } from './testing.js';

const text = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const example = (name: string): Example => ({
  key: name,
  name,
  about: '',
  files: { [`${name}.yaml`]: text(`${name}.yaml`), [`${name}.day.yaml`]: text(`${name}.day.yaml`) },
});
const examples = [example('alondra'), example('bandeja')];

/** Little to read, for tests with many edits. */
const small: Example = {
  key: 'small',
  name: 'small',
  about: '',
  files: { 'small.yaml': 'noonwing: design 1\nname: small\nlevel power: 9 W\nbattery: {x: 20 mm}\n' },
};

const start = async (storage: Storage = memoryStorage(), more: Partial<Parameters<typeof createAppStore>[0]> = {}) => {
  let time = 0;
  const app = createAppStore({ storage, now: () => (time += 10), newId: counter(), examples, ...more });
  await app.started;
  return app;
};
const design = (app: Awaited<ReturnType<typeof start>>) => activeOf(app.store.getState()).design!;
const work = (app: Awaited<ReturnType<typeof start>>): Work => app.store.getState().work;

describe('the store', () => {
  it('opens the examples at the first start, the first in view', async () => {
    const app = await start();
    expect(Object.values(work(app).projects).map(({ name }) => name)).toEqual(['alondra', 'bandeja']);
    expect(activeOf(app.store.getState())).toMatchObject({ designPath: 'alondra.yaml', planPath: 'alondra.day.yaml' });
  });

  it('sets a value in its place, with a label, and takes it back', async () => {
    const app = await start();
    const before = design(app);
    expect(app.setValue('battery.x', '-43 mm')).toMatchObject({ ok: true });
    expect(design(app)).toBe(before.replace('  x: 20 mm\n  z: -40 mm', '  x: -43 mm\n  z: -40 mm'));
    expect(undoLabel(app.store.getState().history)).toBe('battery: aft of the datum (x) to -43 mm');
    expect(app.undo()).toBe(true);
    expect(design(app)).toBe(before);
    expect(app.redo()).toBe(true);
    expect(design(app)).toContain('x: -43 mm');
  });

  it('merges typing in one field into one step, and not across a pause of focus', async () => {
    const app = await start();
    for (const typed of ['1', '15', '15 mm']) app.setValue('battery.x', typed);
    expect(historyList(app.store.getState().history).map(({ label }) => label)).toEqual([
      'battery: aft of the datum (x) to 15 mm',
    ]);
    app.endStep();
    app.setValue('battery.x', '16 mm');
    expect(historyList(app.store.getState().history)).toHaveLength(2);
    app.undo();
    expect(valueAt(app.store.getState(), 'battery.x')!.text).toBe('15 mm');
    app.undo();
    expect(valueAt(app.store.getState(), 'battery.x')!.text).toBe('20 mm');
  });

  it('keeps what the file cannot take beside it, says why, and loses nothing', async () => {
    const app = await start();
    const before = design(app);
    const refused = app.setValue('battery.usable', '140 %');
    expect(refused).toMatchObject({ ok: false, pending: true });
    expect(design(app)).toBe(before);
    expect(valueAt(app.store.getState(), 'battery.usable')!.pending).toBe('140 %');
    expect(app.setValue('battery.usable', '90 %').ok).toBe(true);
    expect(valueAt(app.store.getState(), 'battery.usable')).toMatchObject({ text: '90 %', value: 0.9 });
    expect(valueAt(app.store.getState(), 'battery.usable')!.pending).toBeUndefined();
  });

  it('writes a decimal comma as a point, also inside brackets', async () => {
    const app = await start();
    expect(app.setValue('masses.fin.mass', '13,5 g weighed').ok).toBe(true);
    expect(design(app)).toContain('{mass: 13.5 g weighed, on: fin}');
  });

  it('sets several values in one step or none', async () => {
    const app = await start();
    const before = work(app);
    const edits = [
      { path: 'battery.x', text: '10 mm' },
      { path: 'battery.usable', text: '-3' },
    ];
    expect(app.run({ kind: 'set values', edits }).ok).toBe(false);
    expect(work(app)).toBe(before);
    expect(app.run({ kind: 'set values', edits: edits.slice(0, 1), label: 'battery forward' }).ok).toBe(true);
    expect(undoLabel(app.store.getState().history)).toBe('battery forward');
  });

  it('takes back a deleted project, and choosing a file makes no step', async () => {
    const app = await start();
    const [first, second] = Object.keys(work(app).projects);
    app.run({ kind: 'select project', project: second! });
    expect(canUndo(app.store.getState().history)).toBe(false);
    app.run({ kind: 'delete project', project: second! });
    expect(work(app).current).toBe(first);
    app.undo();
    expect(work(app).current).toBe(second);
    expect(Object.keys(work(app).projects)).toHaveLength(2);
  });

  it('treats names and texts as texts: markup stays as written, and keys of the language are plain keys', async () => {
    const app = await start();
    const id = app.newProject('<img src=x onerror=alert(1)>\u202e', {
      __proto__: 'a',
      '../../etc/passwd': 'b',
      'a.yaml': 'noonwing: design 1\nname: x\n',
    });
    const made = work(app).projects[id]!;
    expect(made.name).toBe('img src=x onerror=alert(1)');
    expect(Object.keys(made.files).sort()).toEqual(['a.yaml', 'etc/passwd']);
    expect(app.setValue('name', '<script>alert(1)</script>').ok).toBe(true);
    expect(valueAt(app.store.getState(), 'name')!.text).toBe('<script>alert(1)</script>');
  });

  it('keeps preferences and place out of the history, and over a reload', async () => {
    const storage = memoryStorage();
    const app = await start(storage);
    app.setUnit('length', 'in');
    app.setUi({ place: 'design/balance', hour: 11.5 });
    expect(canUndo(app.store.getState().history)).toBe(false);
    await app.close();
    const again = await start(storage);
    expect(again.store.getState().preferences.units.length).toBe('in');
    expect(again.store.getState().ui).toMatchObject({ place: 'design/balance', hour: 11.5 });
  });

  it('takes steps back after a reload', async () => {
    const storage = memoryStorage();
    const app = await start(storage);
    const before = design(app);
    for (let i = 0; i < 150; i++) app.run({ kind: 'set value', path: 'battery.x', text: `${i} mm` });
    await app.close();
    const again = await start(storage);
    expect(design(again)).toContain('x: 149 mm');
    for (let i = 0; i < 150; i++) expect(again.undo()).toBe(true);
    expect(design(again)).toBe(before);
    expect(again.undo()).toBe(false);
  });
});

const commands: fc.Arbitrary<Command> = fc.oneof(
  fc.record({
    kind: fc.constant('set value' as const),
    path: fc.constantFrom('battery.x', 'battery.usable', 'name', 'surfaces.wing.x', 'nonsense', 'notes'),
    text: fc.constantFrom('1 mm', '-5 mm', '', '90 %', 'x: y', 'a\nb', '3 parsec', '  '),
  }),
  fc.record({
    kind: fc.constant('set text' as const),
    path: fc.constantFrom('alondra.yaml', 'bandeja.yaml', 'note.txt'),
    text: fc.constantFrom('noonwing: design 1\nname: z\n', '', '{', text('bandeja.yaml')),
  }),
  fc.constant({
    kind: 'add files',
    files: { 'note.txt': 'n', 'other.yaml': 'noonwing: design 1\nname: o\n' },
  } as const),
  fc.record({
    kind: fc.constant('rename file' as const),
    from: fc.constantFrom('note.txt', 'alondra.yaml'),
    to: fc.constantFrom('b.txt', 'c.yaml'),
  }),
  fc.record({ kind: fc.constant('duplicate file' as const), path: fc.constantFrom('alondra.yaml', 'note.txt') }),
  fc.record({ kind: fc.constant('delete file' as const), path: fc.constantFrom('alondra.yaml', 'note.txt', 'c.yaml') }),
  fc.record({
    kind: fc.constant('new project' as const),
    id: fc.constantFrom('p', 'q'),
    name: fc.constant('new'),
    files: fc.constant({ 'a.yaml': 'noonwing: design 1\nname: a\n' }),
  }),
  fc.record({ kind: fc.constant('delete project' as const), project: fc.constantFrom('id1', 'id2', 'id3', 'p', 'q') }),
  fc.record({ kind: fc.constant('select project' as const), project: fc.constantFrom('id1', 'id2', 'p') }),
  fc.record({
    kind: fc.constant('duplicate project' as const),
    project: fc.constantFrom('id1', 'p'),
    id: fc.constantFrom('r', 's'),
  }),
  fc.constant({ kind: 'compare', slot: { kind: 'design', project: 'id2', design: 'bandeja.yaml' } } as const),
  fc.constant({ kind: 'compare', slot: null } as const),
);

describe('any sequence of commands', () => {
  it('undone goes back to the start, redone to the end, and survives a reload', async () => {
    const step = fc.record({ command: commands, capture: fc.constantFrom('new step', 'same step', undefined) });
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { maxLength: 25 }),
        fc.array(fc.boolean(), { maxLength: 10 }),
        async (steps, travel) => {
          const storage = memoryStorage();
          const app = await start(storage);
          // A selection before the first step has no step to go back with: begin with a step.
          app.run({ kind: 'set value', path: 'battery.z', text: '-41 mm' });
          const first = work(app);
          app.undo();
          const origin = work(app);
          app.redo();
          expect(work(app)).toEqual(first);
          for (const { command, capture } of steps) app.run(command, capture);
          const end = work(app);
          while (app.undo());
          expect(work(app)).toEqual(origin);
          while (app.redo());
          expect(work(app)).toEqual(end);
          for (const back of travel) back ? app.undo() : app.redo();
          const here = work(app);
          await app.close();
          const again = await start(storage);
          expect(work(again)).toEqual(here);
          while (canRedo(again.store.getState().history)) again.redo();
          expect(work(again)).toEqual(end);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a storage that fails', () => {
  it.each([true, false])(
    'at any point (after the call: %s) loses at most the change that was not yet said to be saved',
    async (after) => {
      const edits = 70;
      const total = async () => {
        const storage = crashingStorage(new Map(), Number.POSITIVE_INFINITY, after);
        const app = await start(storage);
        for (let i = 0; i < edits; i++) {
          app.run({ kind: 'set value', path: 'battery.x', text: `${i} mm` });
          await app.saved();
        }
        return storage.calls();
      };
      const calls = await total();
      for (let failAt = 1; failAt <= calls + 1; failAt++) {
        const kept = new Map<string, string>();
        const app = await start(crashingStorage(kept, failAt, after), { examples: [small] });
        let last = -1;
        for (let i = 0; i < edits; i++) {
          app.run({ kind: 'set value', path: 'battery.x', text: `${i} mm` });
          await app.saved();
          if (app.store.getState().save.kind !== 'saved') break;
          last = i;
        }
        const again = await start(memoryStorage(kept));
        const found = valueAt(again.store.getState(), 'battery.x')!.value! * 1000;
        const expected = last < 0 ? [20, 0] : [last, last + 1];
        expect(expected, `failed at call ${failAt}`).toContain(Math.round(found));
        expect(again.store.getState().notices.filter(({ severity }) => severity === 'error')).toEqual([]);
      }
    },
    120_000,
  );

  it('goes on in memory when full, says so, offers export, and saves when there is room again', async () => {
    const kept = new Map<string, string>();
    let room = Number.POSITIVE_INFINITY;
    const app = await start(smallStorage(kept, () => room));
    await app.saved();
    room = 0;
    app.setValue('battery.x', '1 mm');
    await app.saved();
    expect(app.store.getState().save).toMatchObject({ kind: 'not saved', reason: 'full' });
    expect(app.store.getState().notices[0]!.actions).toContain('export');
    app.setValue('battery.x', '2 mm', { capture: 'new step' });
    expect(valueAt(app.store.getState(), 'battery.x')!.text).toBe('2 mm');
    room = Number.POSITIVE_INFINITY;
    app.retrySave();
    await app.saved();
    expect(app.store.getState()).toMatchObject({ save: { kind: 'saved' }, notices: [] });
    const again = await start(memoryStorage(kept));
    expect(valueAt(again.store.getState(), 'battery.x')!.text).toBe('2 mm');
  });

  it('works without any storage and says so', async () => {
    const app = createAppStore({ now: () => 0, newId: counter(), examples });
    await app.started;
    expect(app.setValue('battery.x', '1 mm').ok).toBe(true);
    expect(app.store.getState().save).toMatchObject({ kind: 'not saved', reason: 'none' });
  });

  it('sets damaged records aside, keeps the rest, and says what happened', async () => {
    const kept = new Map<string, string>();
    const app = await start(memoryStorage(kept));
    for (let i = 0; i < 65; i++) {
      app.run({ kind: 'set value', path: 'battery.x', text: `${i} mm` });
      await app.saved();
    }
    await app.close();
    const journal = [...kept.keys()].filter((key) => key.startsWith('journal/')).sort();
    kept.set(journal.at(-1)!, kept.get(journal.at(-1)!)!.replace('mm', 'xx'));
    const again = await start(memoryStorage(kept));
    expect(Math.round(valueAt(again.store.getState(), 'battery.x')!.value! * 1000)).toBe(63);
    expect(again.store.getState().notices[0]!.text).toContain('could not be read');
    expect([...kept.keys()].some((key) => key.startsWith('damaged/'))).toBe(true);
    // It goes on from there, and the next start has nothing to complain about.
    again.run({ kind: 'set value', path: 'battery.x', text: '99 mm' });
    await again.close();
    const third = await start(memoryStorage(kept));
    expect(valueAt(third.store.getState(), 'battery.x')!.text).toBe('99 mm');
    expect(third.store.getState().notices).toEqual([]);
  });

  it('survives any single record being cut or overwritten', async () => {
    const kept = new Map<string, string>();
    const app = await start(memoryStorage(kept));
    for (let i = 0; i < 130; i++) {
      app.run({ kind: 'set value', path: 'battery.x', text: `${i} mm` });
      await app.saved();
    }
    await app.close();
    for (const key of [...kept.keys()]) {
      const damaged = new Map(kept);
      damaged.set(key, damaged.get(key)!.slice(0, -3));
      const again = await start(memoryStorage(damaged));
      expect(again.store.getState().ready).toBe(true);
      expect(Object.keys(work(again).projects).length, key).toBeGreaterThanOrEqual(1);
      await again.close();
      const third = await start(memoryStorage(damaged));
      expect(work(third), key).toEqual(work(again));
    }
  });

  it('leaves the work of a newer program alone', async () => {
    const kept = new Map<string, string>();
    const app = await start(memoryStorage(kept));
    await app.close();
    const { sealed } = await import('./journal.js');
    kept.set('head/a', sealed({ version: 99, number: 5, parts: {} }));
    const before = new Map(kept);
    const again = await start(memoryStorage(kept));
    again.setValue('battery.x', '1 mm');
    await again.close();
    expect(kept).toEqual(before);
    expect(again.store.getState().notices[0]!.text).toContain('newer');
  });
});

describe('two tabs', () => {
  it('opens the second read-only, follows the first, takes over, and makes the first read-only', async () => {
    const browser = fakeBrowser();
    const kept = new Map<string, string>();
    const one = await start(memoryStorage(kept), { tabs: browser.tab(), newId: counter('a') });
    await one.saved();
    const two = await start(memoryStorage(kept), { tabs: browser.tab(), newId: counter('b') });
    expect(two.store.getState().save.kind).toBe('read only');
    expect(two.setValue('battery.x', '1 mm')).toMatchObject({ ok: false, reason: 'this tab is read-only' });
    two.setUi({ place: 'fly' });
    one.setValue('battery.x', '7 mm');
    await one.saved();
    await new Promise((resolve) => setTimeout(resolve, 5));
    expect(valueAt(two.store.getState(), 'battery.x')!.text).toBe('7 mm');
    expect(two.store.getState().ui.place).toBe('fly');
    one.setValue('battery.x', '8 mm');
    await two.takeOver();
    expect(one.store.getState().save.kind).toBe('read only');
    expect(valueAt(two.store.getState(), 'battery.x')!.text).toBe('8 mm');
    expect(two.setValue('battery.x', '9 mm').ok).toBe(true);
    await two.saved();
    expect(two.store.getState().save.kind).toBe('saved');
    await one.takeOver();
    expect(valueAt(one.store.getState(), 'battery.x')!.text).toBe('9 mm');
    expect(two.store.getState().save.kind).toBe('read only');
  });

  it('takes the work from a tab that does not answer', async () => {
    const browser = fakeBrowser();
    const kept = new Map<string, string>();
    let frozen = false;
    const one = await start(memoryStorage(kept), { tabs: browser.tab(() => frozen), newId: counter('a') });
    one.setValue('battery.x', '7 mm');
    await one.saved();
    frozen = true;
    const two = await start(memoryStorage(kept), { tabs: browser.tab(), newId: counter('b') });
    await two.takeOver();
    expect(two.store.getState().save.kind).not.toBe('read only');
    expect(one.store.getState().save.kind).toBe('read only');
    expect(valueAt(two.store.getState(), 'battery.x')!.text).toBe('7 mm');
  });

  it('never lets two writers overwrite each other, even if both believe to be the only one', async () => {
    const kept = new Map<string, string>();
    const one = await start(memoryStorage(kept), { newId: counter('a') });
    await one.saved();
    const two = await start(memoryStorage(kept), { newId: counter('b') });
    two.setValue('battery.x', '5 mm');
    await two.saved();
    one.setValue('battery.x', '6 mm');
    await one.saved();
    expect(one.store.getState().save.kind).toBe('read only');
    expect(one.store.getState().notices.at(-1)!.actions).toContain('export');
    expect(valueAt(one.store.getState(), 'battery.x')!.text).toBe('6 mm');
    const again = await start(memoryStorage(kept));
    expect(valueAt(again.store.getState(), 'battery.x')!.text).toBe('5 mm');
  });
});
