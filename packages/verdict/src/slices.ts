/**
 * Long work in slices: between two of them the share done so far is yielded, 0 to 1, so that a worker can listen to messages
 * and give up an answer that nobody wants any more. The work ends with its result.
 */
export type Slices<T> = Generator<number, T, void>;

/**
 * All slices one after the other.
 * @param onProgress - told the share done between slices
 */
export function whole<T>(slices: Slices<T>, onProgress: (share: number) => void = () => {}): T {
  for (;;) {
    const next = slices.next();
    if (next.done === true) return next.value;
    onProgress(next.value);
  }
}
