const roles = [
  'paper',
  'ink',
  'soft',
  'rule',
  'edge',
  'daylight',
  'sun',
  'part0',
  'part1',
  'part2',
  'sky2',
  'accent',
] as const;

/** Colours of the page as "#rrggbb", by what they mean. */
export type Colours = Readonly<Record<(typeof roles)[number], string>>;

const plain: Colours = {
  paper: '#fffcf5',
  ink: '#1c2430',
  soft: '#545b66',
  rule: '#e2d9c6',
  edge: '#7d7667',
  daylight: '#fdf4dc',
  sun: '#b07200',
  part0: '#c9dbe6',
  part1: '#f3d9a8',
  part2: '#d9cbe6',
  sky2: '#6a3d9a',
  accent: '#24506b',
};

/** The colours that the page has at an element; the light ones where it has none. */
export function coloursAt(element: Element): Colours {
  const style = getComputedStyle(element);
  const read = (role: keyof Colours) => {
    const value = style.getPropertyValue(`--nw-${role}`).trim();
    return /^#[0-9a-f]{6}$/i.test(value) ? value : plain[role];
  };
  return Object.fromEntries(roles.map((role) => [role, read(role)])) as Record<keyof Colours, string>;
}

/** Calls back when the colours may have changed: another theme, or the reader's preference. Returns what ends it. */
export function watchColours(changed: () => void): () => void {
  const observer = new MutationObserver(changed);
  observer.observe(document.documentElement, { attributes: true, subtree: true, attributeFilter: ['data-theme'] });
  const preference = matchMedia('(prefers-color-scheme: dark)');
  preference.addEventListener('change', changed);
  return () => {
    observer.disconnect();
    preference.removeEventListener('change', changed);
  };
}
