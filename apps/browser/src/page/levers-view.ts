import type { LeverResult, LeversResult } from '../answer.js';
import { changeText } from '../words.js';
import { element } from './elements.js';

export interface LeverActions {
  readonly compare: () => void;
  /** Puts the text of a changed design into the editor. */
  readonly apply: (text: string) => void;
  /** Present where a change was applied. */
  readonly takeBack: (() => void) | undefined;
}

const shownAtFirst = 6;

/** What would help most: a question that is asked on demand, then the answer, best first. */
export function leversView(found: LeversResult | undefined, actions: LeverActions): readonly HTMLElement[] {
  const heading = element('h2', {}, 'What would help most');
  const buttons = element('p', { class: 'buttons' });
  if (actions.takeBack !== undefined) buttons.append(button('Take the last change back', actions.takeBack));
  if (found === undefined) {
    buttons.prepend(button('Try every change', actions.compare));
    const about =
      'Each change is run through the whole day, with balance, strings and mass restored. It takes some seconds.';
    return [heading, element('p', {}, about), buttons];
  }
  const usable = found.levers.filter(({ payoff }) => payoff !== undefined).slice(0, shownAtFirst);
  const blocked = found.levers.filter(({ problem }) => problem !== '');
  return [
    heading,
    element('p', {}, `By what the sun gives against what flight takes, ${found.sky} sky, best first.`),
    element('ol', { class: 'levers' }, ...usable.map((lever) => leverView(lever, actions))),
    ...blocked.map(({ label, problem }) => element('p', { class: 'note' }, `Not to be had: ${label}: ${problem}.`)),
    buttons,
  ];
}

function leverView({ label, edits, text, payoff }: LeverResult, { apply }: LeverActions): HTMLElement {
  const gain = payoff === undefined ? '' : changeText(payoff);
  return element(
    'li',
    {},
    element('b', {}, label),
    `: ${gain}. `,
    element('span', { class: 'note' }, `In the file: ${edits.join('; ')}. `),
    text === undefined ? undefined : button('Write into the file', () => apply(text), `Write into the file: ${label}`),
  );
}

function button(text: string, action: () => void, name = text): HTMLButtonElement {
  const made = element('button', { type: 'button', 'aria-label': name }, text);
  made.addEventListener('click', action);
  return made;
}
