import type { QuantityKind } from '@noonwing/quantities';
import type { ReactNode } from 'react';
import { unitsOf } from '../../core/shown-quantity.js';
import type { Preferences, Theme } from '../../core/state.js';
import { Dialog } from '../kit/dialog.js';
import { Select, Switch } from '../kit/fields.js';
import { useAppState, useServices } from '../kit/services.js';
import { closeDialog } from './open-state.js';
import styles from './shell.module.css';

const themes: readonly { readonly value: Theme; readonly label: string }[] = [
  { value: 'system', label: 'as the device' },
  { value: 'light', label: 'light' },
  { value: 'dark', label: 'dark' },
  { value: 'sunlight', label: 'sunlight: black on white, large' },
];

const motions: readonly { readonly value: Preferences['reducedMotion']; readonly label: string }[] = [
  { value: 'system', label: 'as the device' },
  { value: 'yes', label: 'nothing moves' },
  { value: 'no', label: 'things may move' },
];

const languages = [
  { value: 'system', label: 'as the browser' },
  { value: 'en', label: '1.5' },
  { value: 'de', label: '1,5' },
];

/** Kinds whose unit a builder chooses. */
const kinds: readonly { readonly kind: QuantityKind; readonly label: string }[] = [
  { kind: 'length', label: 'lengths' },
  { kind: 'mass', label: 'masses' },
  { kind: 'speed', label: 'speeds' },
  { kind: 'area', label: 'areas' },
  { kind: 'angle', label: 'angles' },
  { kind: 'temperature', label: 'temperatures' },
  { kind: 'areal density', label: 'masses by area' },
  { kind: 'density', label: 'densities' },
  { kind: 'energy', label: 'energies' },
];

/** Choices of the person: how numbers, colours and sizes are shown. Designs do not change by them. */
export function PreferencesDialog(): ReactNode {
  const { app } = useServices();
  const { theme, reducedMotion, language, largeTargets, units } = useAppState((state) => state.preferences);
  return (
    <Dialog title="Preferences" onClose={closeDialog} wide>
      <p className={styles.soft}>They change what is shown, not what is in the files, and stay on this device.</p>
      <div className={styles.grid}>
        <Select
          label="Theme"
          value={theme}
          choices={themes}
          onChange={(value) => app.setPreferences({ theme: value as Theme })}
        />
        <Select
          label="Motion"
          value={reducedMotion}
          choices={motions}
          onChange={(value) => app.setPreferences({ reducedMotion: value as Preferences['reducedMotion'] })}
        />
        <Select
          label="Numbers"
          value={language}
          choices={languages}
          onChange={(value) => app.setPreferences({ language: value })}
        />
        <Switch
          label="Large buttons"
          checked={largeTargets}
          onChange={(checked) => app.setPreferences({ largeTargets: checked })}
        />
      </div>
      <h3>Units</h3>
      <p className={styles.soft}>Any unit can be typed into any field; these are the ones that values are shown in.</p>
      <div className={styles.grid}>
        {kinds
          .filter(({ kind }) => unitsOf(kind).length > 1)
          .map(({ kind, label }) => (
            <Select
              key={kind}
              label={label}
              value={units[kind] ?? ''}
              choices={[
                { value: '', label: 'usual for the size' },
                ...unitsOf(kind).map((unit) => ({ value: unit, label: unit })),
              ]}
              onChange={(unit) => app.setUnit(kind, unit === '' ? null : unit)}
            />
          ))}
      </div>
    </Dialog>
  );
}
