import type { Trouble } from "./trouble.ts";

/** What failed, with the way to try it again. Nothing that was typed is lost by it. */
export function Troubles({
  troubles,
  onAgain,
}: {
  readonly troubles: readonly Trouble[];
  readonly onAgain: (kind: Trouble["kind"]) => void;
}) {
  return (
    <div class="notice" role="alert">
      {troubles.map(({ kind, text }) => (
        <p key={text}>
          {text}{" "}
          <button type="button" onClick={() => onAgain(kind)}>
            Try again
          </button>
        </p>
      ))}
    </div>
  );
}
