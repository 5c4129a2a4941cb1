import { useState } from "preact/hooks";
import type { Reading } from "./readings.ts";

/** Keeps a reading in the book, with or without a signal. The book's script comes with the first press. */
export function KeepInBook({
  reading,
  fieldName,
}: {
  readonly reading: Reading;
  readonly fieldName: string;
}) {
  const [said, setSaid] = useState("");
  const [kept, setKept] = useState(false);
  const keep = async () => {
    const { keepReading } = await import("../book/part.ts");
    const done = await keepReading({ reading: reading.request, fieldName, place: reading.place });
    setKept(done === "kept");
    setSaid(
      done === "kept"
        ? "In the book."
        : `The book has no field "${fieldName}": open the book and keep the field on the page first.`,
    );
  };
  return (
    <>
      {kept ? null : (
        <button type="button" onClick={() => void keep()}>
          Keep in the book
        </button>
      )}
      <span role="status">{said}</span>
    </>
  );
}
