import { type Field, labelled, notation, quantity, type Valued } from './schema/field.js';

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
