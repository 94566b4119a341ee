import {
  parsePackLayout,
  parsePlace,
  parsePropellerSize,
  parseQuantity,
  type QuantityKind,
} from '@noonwing/quantities';
import { BATTERY_CELLS } from '../library/battery-cells.js';
import { CELLS } from '../library/cells.js';

export type AnswerKind = 'text' | 'quantity' | 'choice' | 'pack' | 'propeller' | 'place' | 'count';

/** One question of a new design. An answer that is left out gets its default, or a value usual for the size. */
export interface NewDesignQuestion {
  readonly key: string;
  readonly question: string;
  readonly help: string;
  readonly kind: AnswerKind;
  readonly quantity?: QuantityKind;
  readonly choices?: readonly string[];
  /** As it would be typed; empty where the default depends on the other answers. */
  readonly default: string;
  readonly optional: boolean;
}

/** The questions of `noonwing new`, in the order in which a builder knows the answers. */
export const newDesignQuestions = [
  {
    key: 'name',
    question: 'What is it called?',
    help: 'any name',
    kind: 'text',
    default: 'my aircraft',
    optional: true,
  },
  {
    key: 'layout',
    question: 'Which layout?',
    help: 'tailed; flying wing (swept, no tail); plank (wide and short, with elevons)',
    kind: 'choice',
    choices: ['tailed', 'flying wing', 'plank'],
    default: 'tailed',
    optional: true,
  },
  {
    key: 'span',
    question: 'Wing span?',
    help: 'from tip to tip, such as 2.4 m',
    kind: 'quantity',
    quantity: 'length',
    default: '',
    optional: true,
  },
  {
    key: 'chord',
    question: 'Mean chord of the wing?',
    help: 'wing area over span, such as 220 mm',
    kind: 'quantity',
    quantity: 'length',
    default: '',
    optional: true,
  },
  {
    key: 'mass',
    question: 'Mass ready to fly?',
    help: 'such as 1.3 kg, or 1.3 kg ± 0.1 kg',
    kind: 'quantity',
    quantity: 'mass',
    default: '',
    optional: true,
  },
  {
    key: 'cells',
    question: 'How many solar cells?',
    help: 'a whole number; 0 for none',
    kind: 'count',
    default: '',
    optional: true,
  },
  {
    key: 'cell',
    question: 'Which solar cells?',
    help: 'a kind of the parts library; a data sheet can be written into the file later',
    kind: 'choice',
    choices: Object.keys(CELLS),
    default: 'back-contact 125 mm',
    optional: true,
  },
  {
    key: 'battery',
    question: 'Battery pack?',
    help: 'cells in series and parallel, such as 3S2P; none for no battery',
    kind: 'pack',
    default: '',
    optional: true,
  },
  {
    key: 'battery cell',
    question: 'Which battery cells?',
    help: 'a kind of the parts library',
    kind: 'choice',
    choices: Object.keys(BATTERY_CELLS),
    default: 'lithium-ion 18650 3.4 Ah',
    optional: true,
  },
  {
    key: 'motor',
    question: 'Motor speed constant?',
    help: 'such as 750 rpm/V; leave it out if unknown',
    kind: 'quantity',
    quantity: 'motor speed constant',
    default: '',
    optional: true,
  },
  {
    key: 'propeller',
    question: 'Propeller?',
    help: 'diameter x pitch, such as 11x6 in; leave it out if unknown',
    kind: 'propeller',
    default: '',
    optional: true,
  },
  {
    key: 'level power',
    question: 'Power in level flight, if it was measured?',
    help: 'electric power from the battery, such as 11 W ± 1 W; leave it out to have it computed',
    kind: 'quantity',
    quantity: 'power',
    default: '',
    optional: true,
  },
  {
    key: 'place',
    question: 'Where will it fly?',
    help: 'latitude and longitude, such as 40.7 N 0.9 E',
    kind: 'place',
    default: '40.7 N 0.9 E',
    optional: true,
  },
] as const satisfies readonly NewDesignQuestion[];

export type NewDesignKey = (typeof newDesignQuestions)[number]['key'];

/** Answers as typed; what is missing or empty is unknown. */
export type NewDesignAnswers = Readonly<Partial<Record<NewDesignKey, string | undefined>>>;

/** Why an answer cannot be used. */
export interface AnswerProblem {
  readonly key: NewDesignKey;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

const QUESTIONS: readonly NewDesignQuestion[] = newDesignQuestions;

/** Checks one answer as it is typed; undefined where it can be used. An empty answer can always be. */
export function answerProblem(key: NewDesignKey, answer: string): AnswerProblem | undefined {
  const question = QUESTIONS.find((candidate) => candidate.key === key)!;
  const written = answer.trim();
  const none = question.kind === 'pack' && written.toLowerCase() === 'none';
  if (written === '' || question.kind === 'text' || none) return undefined;
  const refuse = (expected: string, hint: string): AnswerProblem => ({ key, found: written, expected, hint });
  if (question.kind === 'choice') {
    const fits = question.choices!.some((choice) => choice.toLowerCase() === written.toLowerCase());
    return fits ? undefined : refuse(`one of: ${question.choices!.join(', ')}`, '');
  }
  const read = reader(question, written);
  if (!read.ok) return refuse(read.expected, read.hint);
  const value = 'value' in read ? read.value : 1;
  const least = question.kind === 'count' ? value >= 0 : value > 0;
  return least ? undefined : refuse(`${question.question.replace('?', '')} above 0`, question.help);
}

function reader(question: NewDesignQuestion, written: string) {
  switch (question.kind) {
    case 'pack':
      return parsePackLayout(written);
    case 'propeller':
      return parsePropellerSize(written);
    case 'place':
      return parsePlace(written);
    case 'count':
      return parseQuantity(written, 'count');
    default:
      return parseQuantity(written, question.quantity!);
  }
}
