import { type ComponentType, lazy } from 'react';
import type { IconName } from '../kit/icons.js';

export interface PlaceProps {
  /** What stands behind the '/' of the place: 'balance' of 'design/balance'; empty for its beginning. */
  readonly section: string;
}

export interface Place {
  readonly id: string;
  readonly label: string;
  readonly icon: IconName;
  /** The question that it answers. */
  readonly question: string;
  readonly sections: readonly { readonly id: string; readonly label: string }[];
  readonly Body: ComponentType<PlaceProps>;
}

type PlaceModule = { readonly default: ComponentType<PlaceProps> };

/** A place exists where its folder has a file place.tsx; it loads when it is first opened. */
const modules = import.meta.glob<PlaceModule>('../*/place.tsx');

type Description = Omit<Place, 'Body'>;

const descriptions: readonly Description[] = [
  { id: 'choose', label: 'Choose', icon: 'choose', question: 'Which aircraft?', sections: [] },
  {
    id: 'day',
    label: 'Day',
    icon: 'day',
    question: 'Where, when, under which sky?',
    sections: [
      { id: 'plan', label: 'Plan' },
      { id: 'light', label: 'Light and power' },
      { id: 'year', label: 'Through the year' },
    ],
  },
  {
    id: 'design',
    label: 'Design',
    icon: 'design',
    question: 'Does it balance, hold together, string its cells to its battery?',
    sections: [
      { id: 'airframe', label: 'Airframe' },
      { id: 'balance', label: 'Balance' },
      { id: 'section', label: 'Section' },
      { id: 'structure', label: 'Structure' },
      { id: 'array', label: 'Cells' },
      { id: 'drive', label: 'Drive' },
      { id: 'battery', label: 'Battery' },
    ],
  },
  { id: 'measure', label: 'Measure', icon: 'measure', question: 'What do the parts really do?', sections: [] },
  { id: 'fly', label: 'Fly', icon: 'fly', question: 'Within which limits?', sections: [] },
];

export const places: readonly Place[] = descriptions.flatMap((description) => {
  const load = modules[`../${description.id}/place.tsx`];
  return load === undefined ? [] : [{ ...description, Body: lazy(load) }];
});

/** The place that a text names, and its section; the first place where it names none that exists. */
export function placeNamed(name: string): { readonly place: Place; readonly section: string } {
  const [id = '', section = ''] = name.split('/', 2);
  const place = places.find((one) => one.id === id) ?? places[0]!;
  const known = place.sections.some((one) => one.id === section);
  return { place, section: known ? section : (place.sections[0]?.id ?? '') };
}
