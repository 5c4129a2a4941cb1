import { useId, useState } from "preact/hooks";
import { ErrorText } from "../panel/Field.tsx";
import { noteSignedIn } from "./key-needed.ts";
import { signIn } from "./session.ts";
import { theOutbox } from "./the-outbox.ts";
import "./book.css";
import "./sign-in.css";

/** The key of a shared server, asked for once: after it the browser has a cookie that no script can read. */
export function SignIn({ onSignedIn }: { readonly onSignedIn: () => void }) {
  const id = useId();
  const [key, setKey] = useState("");
  const [error, setError] = useState<string | null>(null);
  const [asking, setAsking] = useState(false);
  const submit = async (event: Event) => {
    event.preventDefault();
    if (key.trim() === "") {
      setError("Empty; the key that you were given is needed.");
      return;
    }
    setAsking(true);
    const answer = await signIn(key.trim());
    setAsking(false);
    if (!answer.ok) {
      setError(answer.trouble.message);
      return;
    }
    setKey("");
    setError(null);
    noteSignedIn();
    void theOutbox().flush();
    onSignedIn();
  };
  return (
    <form class="sign-in" aria-label="Sign in" onSubmit={submit} noValidate>
      <p>This server is shared and asks for a key. What this device keeps stays as it is.</p>
      <div class={error ? "field wrong" : "field"}>
        <label for={id}>Key</label>
        <input
          id={id}
          type="password"
          autoComplete="current-password"
          value={key}
          aria-invalid={error ? "true" : undefined}
          aria-describedby={error ? `${id}-error` : undefined}
          onInput={({ currentTarget }) => setKey(currentTarget.value)}
        />
        {error ? <ErrorText id={`${id}-error`} text={error} /> : null}
      </div>
      <button type="submit" class="main" disabled={asking}>
        Sign in
      </button>
    </form>
  );
}
