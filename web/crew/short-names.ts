/** What stands for a field where its name has no room: as little of it as tells it from the others. */

function wordsOf(name: string): readonly string[] {
  return name.split(/\s+/).filter(Boolean);
}

/** The first word by which a name differs from every name that begins with the same words: "12" of "Field 12". */
function tellingWord(name: string, others: readonly string[]): string {
  const words = wordsOf(name);
  let rivals = others.map(wordsOf);
  for (const [i, word] of words.entries()) {
    rivals = rivals.filter((rival) => rival[i] === word);
    if (rivals.length === 0 || i === words.length - 1) return word;
  }
  return name;
}

/** The first letters that no other word begins with; of more than two, the first and the one that differs. */
function telling(word: string, others: readonly string[]): string {
  for (let n = 1; n <= word.length; n++) {
    const begin = word.slice(0, n);
    if (others.some((other) => other.startsWith(begin))) continue;
    return n <= 2 ? begin : `${word.slice(0, 1)}${word.slice(n - 1, n)}`;
  }
  return word.length <= 2 ? word : word.slice(0, 1);
}

/** By key: "C" of Creek field; "1" and "12" of Field 1 and Field 12; "Lo" and "La" of Long acre and Lane end. */
export function shortNames(names: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const words = Object.entries(names).map(([id, name]) => {
    const others = Object.entries(names).flatMap(([other, its]) => (other === id ? [] : [its]));
    return [id, tellingWord(name, others)] as const;
  });
  return Object.fromEntries(
    words.map(([id, word]) => {
      const others = words.flatMap(([other, its]) => (other === id ? [] : [its]));
      // A number is said whole: "1" of 12 would be another field.
      return [id, /^\d{1,3}$/.test(word) ? word : telling(word, others)];
    }),
  );
}
