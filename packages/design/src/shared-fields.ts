import { timeOfDay } from './notations.js';
import {
  type Field,
  labelled,
  NOT_NEGATIVE,
  notation,
  object,
  quantity,
  required,
  SHARE,
  shortForm,
  type Valued,
} from './schema/field.js';

/** x, y and z of a part: aft from the datum, to the right wing, up. */
export const position = (of: string, step: string): { x: Field<Valued>; y: Field<Valued>; z: Field<Valued> } => ({
  x: labelled('aft of the datum (x)', quantity('length', `${of}: aft from the datum`, { step, example: '60 mm' })),
  y: labelled('right of the middle (y)', quantity('length', `${of}: to the right of the middle`, { step })),
  z: labelled('above the datum (z)', quantity('length', `${of}: up from the datum`, { step })),
});

/** One fixed word, such as the format and its version. */
export const textOnly = (word: string): Field<string> =>
  notation(
    'format and its version',
    word,
    (written) =>
      written.trim() === word
        ? { ok: true, value: word }
        : { ok: false, found: written, expected: `"${word}"`, hint: `write "noonwing: ${word}"` },
    (value) => value,
  );

/** A load of the aircraft or of a day: its power, or power with the hours in which it is on. */
export const loadField = (help: string) =>
  shortForm(
    help,
    quantity('power', 'power from the battery', { bounds: NOT_NEGATIVE, example: '1.5 W' }),
    object('load', {
      power: required(
        quantity('power', 'power from the battery while it is on', { bounds: NOT_NEGATIVE, example: '1.5 W' }),
      ),
      from: labelled('on from', timeOfDay('on from, by the clock of the place')),
      to: labelled('on until (to)', timeOfDay('on until, by the clock of the place')),
      share: labelled(
        'share of the time',
        quantity('ratio', 'share of that time in which it is on', { bounds: SHARE, example: '20 %' }),
      ),
    }),
    (power) => ({ power }),
    (full) => (Object.keys(full).length === 1 ? full.power : undefined),
  );
