import type { ReactNode } from 'react';

/** Pictures of commands, 24 by 24, drawn with the colour of the text. They always stand beside words. */
const shapes = {
  undo: 'M9 7 4 12l5 5M4 12h10a6 6 0 0 1 0 12',
  redo: 'm15 7 5 5-5 5M20 12H10a6 6 0 0 0 0 12',
  menu: 'M4 7h16M4 12h16M4 17h16',
  close: 'm6 6 12 12M18 6 6 18',
  more: 'M5 12h.01M12 12h.01M19 12h.01',
  down: 'm6 9 6 6 6-6',
  save: 'M12 4v11m-5-5 5 5 5-5M5 20h14',
  search: 'M11 4a7 7 0 1 1 0 14 7 7 0 0 1 0-14Zm5 12 5 5',
  choose: 'M4 18c4-9 12-9 16 0M8 10a4 4 0 1 1 8 0',
  design: 'M3 15c6-5 12-5 18 0M12 6v14M8 20h8',
  measure: 'M4 8h16v8H4zM8 8v4m4-4v5m4-5v4',
  day: 'M12 8a4 4 0 1 1 0 8 4 4 0 0 1 0-8ZM12 2v2m0 16v2M2 12h2m16 0h2M5 5l1.5 1.5M17.5 17.5 19 19M5 19l1.5-1.5M17.5 6.5 19 5',
  lever: 'M3 18 20 8M8 20l4-6 4 6M18 5l3 5',
  fly: 'M3 14 21 5l-6 15-4-6z',
  compare: 'M4 7h9M4 12h16M4 17h12',
} as const;

export type IconName = keyof typeof shapes;

export const Icon = ({ name }: { readonly name: IconName }): ReactNode => (
  <svg className="nw-icon" viewBox="0 0 24 24" width="20" height="20" aria-hidden="true" focusable="false">
    <path d={shapes[name]} />
  </svg>
);
