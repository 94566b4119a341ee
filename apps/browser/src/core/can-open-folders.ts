/** Whether this browser can open a folder in place; alone in its file, as the first load asks it. */
export const canOpenFolders = (): boolean => 'showDirectoryPicker' in globalThis;
