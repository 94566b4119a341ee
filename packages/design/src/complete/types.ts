export type Role = 'wing' | 'tailplane' | 'foreplane' | 'fin';
export type Construction = 'built-up' | 'foam' | 'foam sheet' | 'moulded';

/** Size of an aircraft by which defaults are chosen: its rough mass [kg] and the x of its nose [m]. */
export interface Size {
  readonly mass: number;
  readonly nose: number;
}
