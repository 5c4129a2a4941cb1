import type { HazardShade } from "./hazard-shades.ts";

const LEVELS: readonly HazardShade["level"][] = ["caution", "wait"];

/** Upright bars where one waits, dots where one tests or takes care: told apart without colour. */
export function HazardPatterns({ prefix }: { readonly prefix: string }) {
  return (
    <defs>
      <pattern id={`${prefix}-wait`} width={6} height={6} patternUnits="userSpaceOnUse">
        <rect class="hazard-mark" width={2} height={6} />
      </pattern>
      <pattern id={`${prefix}-caution`} width={8} height={8} patternUnits="userSpaceOnUse">
        <circle class="hazard-mark" cx={2} cy={2} r={1.4} />
        <circle class="hazard-mark" cx={6} cy={6} r={1.4} />
      </pattern>
    </defs>
  );
}

const WORDS = { wait: "wait: rain, frost or soft soil", caution: "test first, or take care" } as const;

/** Entries of the key, for the levels that are drawn alone. */
export function HazardKeys({ shades }: { readonly shades: readonly HazardShade[] }) {
  return (
    <>
      {LEVELS.filter((level) => shades.some((shade) => shade.level === level)).map((level) => (
        <li key={level}>
          <svg width={30} height={26} aria-hidden="true">
            <HazardPatterns prefix={`key-${level}`} />
            <rect
              class="hazard-shade"
              x={2}
              y={4}
              width={26}
              height={18}
              fill={`url(#key-${level}-${level})`}
            />
          </svg>
          {WORDS[level]}
        </li>
      ))}
    </>
  );
}
