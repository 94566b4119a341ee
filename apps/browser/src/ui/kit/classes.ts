/** Class names joined; what is false or absent is left out. */
export const classes = (...names: readonly (string | false | undefined)[]): string =>
  names.filter((name) => name !== false && name !== undefined && name !== '').join(' ');
