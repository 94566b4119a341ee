/**
 * A finding about validity that travels with a result instead of stopping it.
 * `where` names the input or part, in the words of the design file.
 */
export interface Warning {
  readonly code: string;
  readonly message: string;
  readonly where?: string;
}

/** Expected infeasibility or unusable input: why, at which part, and the nearest remedy. Never an exception. */
export interface Problem {
  readonly ok: false;
  readonly code: string;
  readonly reason: string;
  readonly where: string;
  readonly remedy: string;
}

/** A value with the warnings that belong to it. */
export interface Success<T> {
  readonly ok: true;
  readonly value: T;
  readonly warnings: readonly Warning[];
}

export type Outcome<T> = Success<T> | Problem;

export const success = <T>(value: T, warnings: readonly Warning[] = []): Success<T> => ({ ok: true, value, warnings });

export const problem = (fields: Omit<Problem, 'ok'>): Problem => ({ ok: false, ...fields });
