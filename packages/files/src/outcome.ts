/** A finding that travels with what was read. `where` names line or column of the file. */
export interface FileWarning {
  readonly code: string;
  readonly message: string;
  readonly where?: string;
}

/** Why a file cannot be used, at which place, and what would help. Same shape as the engine's problems. */
export interface FileProblem {
  readonly ok: false;
  readonly code: string;
  readonly reason: string;
  readonly where: string;
  readonly remedy: string;
}

export type FileOutcome<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly FileWarning[] }
  | FileProblem;

export const readAs = <T>(value: T, warnings: readonly FileWarning[] = []): FileOutcome<T> => ({
  ok: true,
  value,
  warnings,
});

export const refused = (fields: Omit<FileProblem, 'ok'>): FileProblem => ({ ok: false, ...fields });

/** Collects warnings; those of one code are told once, with the first place and how many there are. */
export interface WarningList {
  readonly add: (code: string, message: string, where?: string) => void;
  readonly all: () => readonly FileWarning[];
}

/** A list that begins with what was found before, for instance in decoding the text. */
export function warningList(earlier: readonly FileWarning[] = []): WarningList {
  const byCode = new Map<string, { readonly first: FileWarning; count: number }>();
  const add: WarningList['add'] = (code, message, where) => {
    const known = byCode.get(code);
    if (known) known.count += 1;
    else byCode.set(code, { first: where === undefined ? { code, message } : { code, message, where }, count: 1 });
  };
  for (const { code, message, where } of earlier) add(code, message, where);
  return {
    add,
    all: () =>
      [...byCode.values()].map(({ first, count }) =>
        count === 1 ? first : { ...first, message: `${first.message} (${count} such places; this is the first)` },
      ),
  };
}
