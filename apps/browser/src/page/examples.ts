const texts = import.meta.glob<string>('../../../../examples/*.yaml', {
  eager: true,
  query: '?raw',
  import: 'default',
});

export interface Example {
  readonly name: string;
  readonly about: string;
  readonly design: string;
  readonly plan: string;
}

const textOf = (file: string): string => {
  const found = Object.entries(texts).find(([path]) => path.endsWith(`/${file}`));
  if (found === undefined) throw new Error(`the example ${file} is not bundled`);
  return found[1];
};

const example = (name: string, about: string): Example => ({
  name,
  about,
  design: textOf(`${name.toLowerCase()}.yaml`),
  plan: textOf(`${name.toLowerCase()}.day.yaml`),
});

/** The three candidates of the demo; invented. */
export const examples: readonly Example[] = [
  example('Alondra', '2.4 m span, tailed, one row of cells'),
  example('Bandeja', 'a wide foam plank, covered with cells'),
  example('Vigilia', '4.6 m span, meant to stay up overnight'),
];
