import { parseDate, parsePlace, parseQuantity, parseTimeOfDay, parseZoneOffset } from '@noonwing/quantities';

/** Why a text cannot be used, in the words of the readers. */
export interface FieldFault {
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

export interface FieldKind {
  readonly key: string;
  readonly label: string;
  /** What to write, shown beside the label. */
  readonly example: string;
  /** Keys in the day plan. */
  readonly path: readonly string[];
  /** Undefined where the text can be used. */
  readonly check: (text: string) => FieldFault | undefined;
}

type Read = { readonly ok: true } | (FieldFault & { readonly ok: false });

const faultOf = (read: Read): FieldFault | undefined =>
  read.ok ? undefined : { found: read.found, expected: read.expected, hint: read.hint };

const within = (text: string, kind: 'length' | 'ratio', from: number, to: number, words: string) => {
  const read = parseQuantity(text, kind);
  if (!read.ok) return faultOf(read);
  return read.value >= from && read.value <= to
    ? undefined
    : { found: text.trim(), expected: words, hint: 'it is outside what can be computed' };
};

/** 'UTC', '+02:00' or the name of a zone that this browser knows; empty takes the clock from the longitude. */
function checkClock(text: string): FieldFault | undefined {
  const plain = text.trim();
  if (plain === '') return undefined;
  const fixed = parseZoneOffset(plain);
  if (fixed.ok) return undefined;
  const expected = 'an offset from UTC such as +02:00, or a zone such as Europe/Madrid';
  if (!/^[A-Za-z]+(?:\/[A-Za-z0-9_+-]+)+$/.test(plain)) return { found: plain, expected, hint: fixed.hint };
  try {
    new Intl.DateTimeFormat('en', { timeZone: plain });
    return undefined;
  } catch {
    return { found: plain, expected, hint: 'no zone of that name is known here' };
  }
}

function checkLaunch(text: string): FieldFault | undefined {
  if (text.trim().toLowerCase() === 'sunrise') return undefined;
  const fault = faultOf(parseTimeOfDay(text));
  return fault === undefined ? undefined : { ...fault, expected: `${fault.expected}, or sunrise` };
}

export const fieldKinds: readonly FieldKind[] = [
  {
    key: 'place',
    label: 'Place',
    example: '40.7 N 0.9 E',
    path: ['place', 'at'],
    check: (text) => faultOf(parsePlace(text)),
  },
  {
    key: 'altitude',
    label: 'Ground above sea level',
    example: '0 m',
    path: ['place', 'altitude'],
    check: (text) => within(text, 'length', -430, 6000, 'a height from -430 m to 6000 m'),
  },
  {
    key: 'date',
    label: 'Date',
    example: '2026-06-21',
    path: ['date'],
    check: (text) => faultOf(parseDate(text)),
  },
  {
    key: 'launch',
    label: 'Launch, local time',
    example: '08:30',
    path: ['launch'],
    check: checkLaunch,
  },
  {
    key: 'charge',
    label: 'Charge at launch',
    example: '95 %',
    path: ['charge at launch'],
    check: (text) => within(text, 'ratio', 0, 1, 'a share from 0 % to 100 %'),
  },
  {
    key: 'clock',
    label: 'Clock of the place',
    example: '+02:00, Europe/Madrid',
    path: ['time zone'],
    check: checkClock,
  },
];

/** A fault in one sentence, and what is computed meanwhile. */
export function faultText(fault: FieldFault, used: string): string {
  const meanwhile = used === '' ? '' : ` Until then ${used} is used.`;
  return `Found ${fault.found}; expected ${fault.expected}; ${fault.hint}.${meanwhile}`;
}
