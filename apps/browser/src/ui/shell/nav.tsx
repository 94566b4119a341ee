import type { ReactNode } from 'react';
import { Icon } from '../kit/icons.js';
import { useAppState, useServices } from '../kit/services.js';
import { useSky, useVerdict } from './hour.js';
import { placeNamed, places } from './places.js';
import styles from './shell.module.css';
import { carriedText, skyTitle } from './words.js';

/** The places of the application, in the order in which a builder meets their questions; at the bottom of a phone. */
export function Nav(): ReactNode {
  const { app } = useServices();
  const name = useAppState((state) => state.ui.place);
  const { place } = placeNamed(name);
  return (
    <nav aria-label="Places" className={styles.nav}>
      <Strip />
      <ul>
        {places.map(({ id, label, icon }) => (
          <li key={id}>
            <button
              type="button"
              aria-current={id === place.id ? 'page' : undefined}
              onClick={() => app.setUi({ place: id })}
            >
              <Icon name={icon} />
              {label}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** On a phone: the answer in one line, wherever the page is scrolled to; it leads to the whole verdict. */
function Strip(): ReactNode {
  const view = useVerdict();
  const { sky } = useSky();
  if (view === undefined) return null;
  const words = sky === undefined ? 'no verdict' : `${skyTitle(sky)}: ${carriedText(sky)}`;
  const hasProblem = view.findings.some(({ severity }) => severity === 'problem');
  const first = !view.canFly ? 'cannot fly; ' : hasProblem ? 'problem; ' : '';
  return (
    <a href="#verdict" className={styles.strip}>
      <b>{`${first}${words}`}</b>
    </a>
  );
}

/** Parts of one place. */
export function Sections(): ReactNode {
  const { app } = useServices();
  const name = useAppState((state) => state.ui.place);
  const { place, section } = placeNamed(name);
  if (place.sections.length === 0) return null;
  return (
    <nav aria-label={`Parts of ${place.label}`} className={styles.sections}>
      <ul>
        {place.sections.map(({ id, label }) => (
          <li key={id}>
            <button
              type="button"
              aria-current={id === section ? 'page' : undefined}
              onClick={() => app.setUi({ place: `${place.id}/${id}` })}
            >
              {label}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
