/** What stands side by side, for a frame that shows it while something is compared. */
export const comparePanel = { id: 'compare', label: 'Side by side', load: () => import('./panel.js') } as const;
