/** Exit codes of every command. An aircraft that is not carried, or cannot fly, is an answer and gives 0. */
export const exitCode = {
  answer: 0,
  unusableInput: 1,
  wrongUsage: 2,
  internalError: 3,
} as const;

export type ExitCode = (typeof exitCode)[keyof typeof exitCode];

/** Why a command cannot go on, in lines for people, with the exit code that says so to programs. */
export interface Refusal {
  readonly ok: false;
  readonly code: ExitCode;
  readonly lines: readonly string[];
}

export interface Ready<T> {
  readonly ok: true;
  readonly value: T;
}

export type Attempt<T> = Ready<T> | Refusal;

export const ready = <T>(value: T): Ready<T> => ({ ok: true, value });

export const refuse = (code: ExitCode, ...lines: readonly string[]): Refusal => ({ ok: false, code, lines });
