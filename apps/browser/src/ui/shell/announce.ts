import { create } from 'zustand';

/** The newest thing said to screen readers; the number tells two equal texts apart. */
export const useAnnouncement = create<{ readonly text: string; readonly number: number }>(() => ({
  text: '',
  number: 0,
}));

/** Says something without moving the focus. */
export const announce = (text: string): void =>
  useAnnouncement.setState(({ number }) => ({ text, number: number + 1 }));
