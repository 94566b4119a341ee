import type { ReactNode } from 'react';
import { Icon } from '../kit/icons.js';
import { useAppState, useServices } from '../kit/services.js';
import { placeNamed, places } from './places.js';
import styles from './shell.module.css';

/** The places of the application, in the order in which a builder meets their questions; at the bottom of a phone. */
export function Nav(): ReactNode {
  const { app } = useServices();
  const name = useAppState((state) => state.ui.place);
  const { place } = placeNamed(name);
  return (
    <nav aria-label="Places" className={styles.nav}>
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
