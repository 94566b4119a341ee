/** How well a library value is founded, as in the checks of the engine. */
export type LibraryProvenance = 'published' | 'common practice' | 'from memory';

/** A number of the library: SI value, SI standard uncertainty over parts sold under such a description. */
export interface Typical {
  readonly value: number;
  readonly sigma: number;
}

export const typical = (value: number, sigma: number): Typical => ({ value, sigma });

/** What every library entry says about itself. */
export interface Entry {
  readonly provenance: LibraryProvenance;
  readonly source: string;
  readonly help: string;
}
