import type { Example } from '../../core/project.js';

const texts = import.meta.glob<string>('../../../../../examples/*.yaml', {
  eager: true,
  query: '?raw',
  import: 'default',
});

const fileNamed = (file: string): Readonly<Record<string, string>> => {
  const found = Object.entries(texts).find(([path]) => path.endsWith(`/${file}`));
  if (found === undefined) throw new Error(`the example ${file} is not bundled`);
  return { [file]: found[1] };
};

const example = (name: string, about: string): Example => {
  const key = name.toLowerCase();
  return { key, name, about, files: { ...fileNamed(`${key}.yaml`), ...fileNamed(`${key}.day.yaml`) } };
};

/** The three candidates of the demo; invented. */
export const examples: readonly Example[] = [
  example('Alondra', '2.4 m span, tailed, one row of cells'),
  example('Bandeja', 'a wide foam plank, covered with cells'),
  example('Vigilia', '4.6 m span, meant to stay up overnight'),
];
