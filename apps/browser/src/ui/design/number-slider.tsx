import { type ReactNode, useEffect, useId, useState } from 'react';
import kit from '../kit/kit.module.css';
import styles from './computed.module.css';

export interface NumberSliderProps {
  readonly label: string;
  /** Behind the number. */
  readonly unit: string;
  /** In the unit. */
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly onChange: (value: number) => void;
}

const digits = (step: number): number => Math.max(0, Math.min(3, Math.ceil(-Math.log10(step))));

/** A number by slider or typed: typing may leave the range of the slider only to its ends. */
export function NumberSlider(props: NumberSliderProps): ReactNode {
  const { label, unit, value, least, most, step, onChange } = props;
  const id = useId();
  const written = value.toFixed(digits(step));
  const [typed, setTyped] = useState(written);
  useEffect(() => setTyped(written), [written]);
  const commit = () => {
    const number = Number(typed.trim().replace(',', '.'));
    if (typed.trim() === '' || !Number.isFinite(number)) return setTyped(written);
    const held = Math.min(most, Math.max(least, number));
    if (Math.abs(held - value) > 1e-9) onChange(held);
    setTyped(held.toFixed(digits(step)));
  };
  return (
    <div className={styles.slider}>
      <label htmlFor={`${id}-range`}>{unit === '' ? label : `${label} [${unit}]`}</label>
      <input
        id={`${id}-range`}
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={`${written} ${unit}`}
        onChange={(event) => onChange(Number(event.target.value))}
      />
      <input
        className={kit.input}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        aria-label={unit === '' ? `${label}, typed` : `${label}, typed, in ${unit}`}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
        }}
      />
    </div>
  );
}
