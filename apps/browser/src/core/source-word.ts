const sourceWord = /[\s(]+(assumed|guessed|estimated|measured|weighed|library)\)?\s*$/i;

/** The word that says where a value comes from, taken off. */
export function splitSourceWord(text: string): { readonly quantity: string; readonly word: string } {
  const found = sourceWord.exec(text);
  return found === null
    ? { quantity: text.trim(), word: '' }
    : { quantity: text.slice(0, found.index).trim(), word: found[1]!.toLowerCase() };
}
