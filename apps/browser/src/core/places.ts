import { formatPlace } from '@noonwing/quantities';
import type { ValueEdit } from './commands.js';
import { type ListedPlace, listedPlaces } from './place-list.js';

const degree = Math.PI / 180;
const earthRadius = 6_371_000;

/** Great-circle distance [m]; angles in radians. Source: haversine formula on a sphere of the earth's mean radius. */
export function distanceBetween(
  a: { readonly latitude: number; readonly longitude: number },
  b: { readonly latitude: number; readonly longitude: number },
): number {
  const half = (difference: number) => Math.sin(difference / 2) ** 2;
  const share =
    half(b.latitude - a.latitude) + Math.cos(a.latitude) * Math.cos(b.latitude) * half(b.longitude - a.longitude);
  return 2 * earthRadius * Math.asin(Math.min(1, Math.sqrt(share)));
}

/** The listed place nearest to a point [rad], with its distance [m]. */
export function nearestPlace(at: { readonly latitude: number; readonly longitude: number }): {
  readonly place: ListedPlace;
  readonly distance: number;
} {
  let best = { place: listedPlaces[0]!, distance: Number.POSITIVE_INFINITY };
  for (const place of listedPlaces) {
    const distance = distanceBetween(at, { latitude: place.latitude * degree, longitude: place.longitude * degree });
    if (distance < best.distance) best = { place, distance };
  }
  return best;
}

/** Letters without accents and capitals. */
const plain = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().trim();

/** Places whose name holds the typed letters; those that begin so first. */
export function findPlaces(typed: string, most = 8): readonly ListedPlace[] {
  const wanted = plain(typed);
  if (wanted === '') return [];
  const begins = (place: ListedPlace) => plain(place.name).startsWith(wanted);
  return listedPlaces
    .filter((place) => plain(place.name).includes(wanted))
    .sort((a, b) => Number(begins(b)) - Number(begins(a)) || a.name.localeCompare(b.name))
    .slice(0, most);
}

/** Edits that put a day plan at a listed place, clock included: for one 'set values' command with file 'day'. */
export const placeEdits = (place: ListedPlace): readonly ValueEdit[] => [
  {
    path: 'place.at',
    text: formatPlace({ latitude: place.latitude * degree, longitude: place.longitude * degree }, 1),
  },
  { path: 'place.name', text: place.name },
  { path: 'place.altitude', text: `${place.altitude} m` },
  { path: 'time zone', text: place.zone },
];

/**
 * Edits for typed or clicked coordinates [rad]. The clock of the nearest listed place is proposed where one lies within
 * 500 km; borders of zones are not known here, so the zone is to be looked at.
 */
export function coordinateEdits(at: { readonly latitude: number; readonly longitude: number }): {
  readonly edits: readonly ValueEdit[];
  readonly note: string;
} {
  const { place, distance } = nearestPlace(at);
  const isNear = distance < 500_000;
  const kilometres = Math.round(distance / 1000);
  return {
    edits: [
      { path: 'place.at', text: formatPlace(at, 3) },
      { path: 'place.name' },
      { path: 'place.altitude' },
      isNear ? { path: 'time zone', text: place.zone } : { path: 'time zone' },
    ],
    note: isNear
      ? `${kilometres} km from ${place.name}; its time zone ${place.zone} is taken: check it, and the altitude.`
      : 'No listed place is near: the clock follows the longitude. Set time zone and altitude.',
  };
}
