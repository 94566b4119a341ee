import { type ReactNode, useRef } from 'react';
import { greatestFile } from '../../core/names.js';
import { Button } from './button.js';

/** A button that reads one text file of the device. */
export function FileButton(props: {
  readonly children: string;
  /** What the file is, for screen readers. */
  readonly what: string;
  /** Endings of names, as in `.csv,.txt`. */
  readonly accept: string;
  readonly onText: (name: string, text: string) => void;
  readonly onTooLong: (name: string) => void;
}): ReactNode {
  const input = useRef<HTMLInputElement>(null);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    if (file.size > greatestFile) props.onTooLong(file.name);
    else props.onText(file.name, await file.text());
  };
  return (
    <>
      <Button onPress={() => input.current?.click()}>{props.children}</Button>
      <input
        ref={input}
        type="file"
        hidden
        accept={props.accept}
        aria-label={props.what}
        onChange={(event) => {
          void take(event.target.files?.[0]);
          event.target.value = '';
        }}
      />
    </>
  );
}
