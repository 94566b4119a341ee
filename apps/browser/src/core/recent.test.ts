import { describe, expect, it } from 'vitest';
import { recentProjects } from './state.js';
import { createAppStore } from './store.js';

const examples = ['one', 'two', 'three'].map((key) => ({
  key,
  name: key,
  about: '',
  files: { [`${key}.yaml`]: 'noonwing: design 1\n' },
}));

describe('recent projects', () => {
  it('come first in the order in which they were open, and what was never opened follows', async () => {
    let number = 0;
    const app = createAppStore({ now: () => 0, newId: () => `id${number++}`, examples });
    await app.started;
    const names = () => recentProjects(app.store.getState()).map(({ name }) => name);
    expect(names()).toEqual(['one', 'two', 'three']);
    const [, , third] = Object.keys(app.store.getState().work.projects);
    app.run({ kind: 'select project', project: third! });
    expect(names()).toEqual(['three', 'one', 'two']);
    app.newProject('four', { 'four.yaml': 'noonwing: design 1\n' });
    expect(names()).toEqual(['four', 'three', 'one', 'two']);
    app.run({ kind: 'delete project', project: third! });
    expect(names()).toEqual(['four', 'one', 'two']);
  });
});
