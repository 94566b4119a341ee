import { create } from 'zustand';

/** What lies above the page; at most one at a time. */
export type OpenDialog =
  | { readonly kind: 'palette' | 'preferences' | 'import' | 'damaged' | 'history' | 'cautions' }
  | { readonly kind: 'rename' | 'delete'; readonly project: string };

/** What is open in the frame: of this tab, forgotten with it. */
export const useOpen = create<{
  readonly dialog: OpenDialog | undefined;
  readonly levers: boolean;
  readonly compare: boolean;
}>(() => ({ dialog: undefined, levers: false, compare: false }));

export const openDialog = (dialog: OpenDialog): void => useOpen.setState({ dialog });
export const closeDialog = (): void => useOpen.setState({ dialog: undefined });
