import type { Chip } from "./chips.ts";

/** Short facts in a row; those with a caution are drawn dashed. */
export function Chips({ chips, label }: { readonly chips: readonly Chip[]; readonly label: string }) {
  if (chips.length === 0) return null;
  return (
    <ul class="chips" aria-label={label}>
      {chips.map(({ text, caution }) => (
        <li key={text} class={caution ? "chip warn" : "chip"}>
          {text}
        </li>
      ))}
    </ul>
  );
}
