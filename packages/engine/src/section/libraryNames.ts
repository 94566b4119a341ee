/** What a name of the section library says; ratios of the chord, angles [rad]. */
export type LibraryName =
  | { readonly family: 'modified'; readonly digits: string }
  | { readonly family: 'flat cells'; readonly key: string }
  | {
      readonly family: LibraryFamily;
      readonly thickness: number;
      readonly camber: number;
      /** Angle of the trailing edge. */
      readonly tail: number;
    };

export type LibraryFamily = 'ellipse' | 'circular arc' | 'flat bottom' | 'zero moment' | 'joukowsky' | 'karman-trefftz';

/** Names as they are listed: what to write, what it is, and its source. */
export const libraryList: readonly { readonly write: string; readonly what: string; readonly source: string }[] = [
  { write: 'NACA 2412', what: 'four digits: camber, its place, thickness', source: 'NACA Report 460, 1933' },
  {
    write: 'NACA 23012',
    what: 'five digits: design lift, place of camber, thickness',
    source: 'NACA Report 537, 1935',
  },
  { write: 'NACA 24112', what: 'five digits, rear reflexed: hardly a moment', source: 'NACA Report 537, 1935' },
  {
    write: 'NACA 0010-34',
    what: 'four digits, then nose radius index and place of greatest thickness',
    source: 'NACA Report 492, 1934 (from memory)',
  },
  {
    write: 'zero moment 10 % camber 2 %',
    what: 'cubic mean line without moment, four-digit thickness: for tailless wings',
    source: 'Glauert, The Elements of Aerofoil and Airscrew Theory, 1926 (from memory)',
  },
  {
    write: 'Joukowsky 12 % camber 3 %',
    what: 'circle mapped to a section with a cusped trailing edge',
    source: 'Joukowsky 1910 (from memory)',
  },
  {
    write: 'Karman-Trefftz 12 % camber 3 % tail 10 deg',
    what: 'the same with an angle at the trailing edge',
    source: 'von Karman, Trefftz 1918',
  },
  { write: 'flat bottom 11 %', what: 'four-digit thickness over a straight underside', source: 'our own law' },
  { write: 'ellipse 12 %', what: 'the same fore and aft', source: 'geometry' },
  { write: 'circular arc 2 % camber 5 %', what: 'bent sheet of even thickness', source: 'geometry' },
  {
    write: 'flat cells 3',
    what: 'three flats of a quarter chord, 10 % thick: less drag than NACA 3410 under the same cells',
    source: 'designed by us',
  },
  {
    write: 'flat cells 3 tailless',
    what: 'three flats of a quarter chord, 10 % thick, without moment: for tailless wings',
    source: 'designed by us',
  },
];

const FORM =
  /^(ellipse|circular arc|flat bottom|zero moment|joukowsky|karman-trefftz)\s+([\d.]+)\s*%(?:\s*,?\s*camber\s+(-?[\d.]+)\s*%)?(?:\s*,?\s*tail\s+([\d.]+)\s*deg)?$/i;

/**
 * Reads a name of the section library, such as "Joukowsky 12 % camber 3 %"; undefined where it is none. Four and five digits without more
 * are no business of the library: see `nacaSection`.
 */
export function libraryName(text: string): LibraryName | undefined {
  const plain = text.trim().replace(/\s+/g, ' ');
  const digits = /^naca\s?(\d{4}-\d\d)$/i.exec(plain)?.[1];
  if (digits !== undefined) return { family: 'modified', digits };
  const key = /^flat cells (\d(?: tailless)?)$/i.exec(plain)?.[1]?.toLowerCase();
  if (key !== undefined) return { family: 'flat cells', key };
  const [, family, thickness, camber = '0', tail] = FORM.exec(plain) ?? [];
  if (family === undefined) return undefined;
  return {
    family: family.toLowerCase() as LibraryFamily,
    thickness: Number(thickness) / 100,
    camber: Number(camber) / 100,
    tail: (Number(tail ?? 10) * Math.PI) / 180,
  };
}
