import { useRef, useState } from "preact/hooks";
import type { BookDocs, Entry } from "../../model/book/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { Fold } from "../fold/Fold.tsx";
import { listText } from "../format/words.ts";
import { joinMade } from "../made/made-cuts.ts";
import { SelectField } from "../panel/Field.tsx";
import { spotText } from "../place/spot.ts";
import type { ForecastPlace } from "../weather/forecast.ts";
import { SHOWN_KINDS, type ShownKind } from "./book-data.ts";
import { KIND_WORDS } from "./book-words.ts";
import { DemoLook } from "./DemoLook.tsx";
import { DueList } from "./DueList.tsx";
import { EntryForm, PLACE_SHOWN } from "./EntryForm.tsx";
import { EntryList } from "./EntryList.tsx";
import { Held } from "./Held.tsx";
import { KeepButtons } from "./KeepButtons.tsx";
import { KeptList } from "./KeptList.tsx";
import { keepPlace } from "./keep-page.ts";
import { madeOfBook } from "./made-of-book.ts";
import { newDoc } from "./new-doc.ts";
import { inputsOfField, placeOfField, placeTexts } from "./of-page.ts";
import { Papers } from "./Papers.tsx";
import { type AnyDoc, chainOf, mended, type ShownEntry } from "./queue.ts";
import { isSigningOut, mayEdit, sessionWords, signOut } from "./session.ts";
import { deviceKeeps, theOutbox } from "./the-outbox.ts";
import { fieldIdOf, type Names } from "./told-entry.ts";
import { useBook } from "./use-book.ts";
import { useDue } from "./use-due.ts";
import { leftWords, othersWords, waitsWords } from "./waits-words.ts";
import "./book.css";

export interface BookProps extends FoldsProps {
  /** Asks for the forecast of a place. */
  readonly ask: (place: ForecastPlace) => void;
}

/** What is edited: an entry, a new one, or a change that was refused. */
interface Editing {
  readonly kind: ShownKind;
  readonly entry: ShownEntry | null;
  readonly doc: Partial<AnyDoc>;
  readonly issues: readonly Issue[];
  /** Key of the refused change that is mended. */
  readonly mends: string | null;
}

/** Kinds that belong to a field: their lists can be of one. */
const OF_FIELD: ReadonlySet<ShownKind> = new Set(["cuts", "readings", "lots"]);

/** The book: what is due, what was kept, what waits for a signal, and the ways in and out of it. */
export function Book({ state, picture, choice, manner, dispatch, ask }: BookProps) {
  const book = useBook();
  const { entries, outbox, session, trouble } = book;
  const due = useDue(book, state.nowMs);
  const [kind, setKind] = useState<ShownKind>("fields");
  const [fieldId, setFieldId] = useState("");
  const [editing, setEditing] = useState<Editing | null>(null);
  const [said, setSaid] = useState("");
  const list = useRef<HTMLHeadingElement>(null);
  const canEdit = mayEdit(session);
  const needsKey = session?.keysNeeded === true && session.holder === null;
  const waits = waitsWords(outbox, deviceKeeps());
  const others = othersWords(outbox.others);
  const who = session && sessionWords(session);
  const shown = (entries[kind] as readonly ShownEntry[]).filter(
    ({ doc }) => fieldId === "" || !OF_FIELD.has(kind) || fieldIdOf(doc as Names, entries) === fieldId,
  );

  const open = (next: Editing | null) => {
    setSaid("");
    setEditing(next);
  };
  const close = () => {
    setEditing(null);
    list.current?.focus();
  };
  const save = async (doc: AnyDoc) => {
    if (editing === null) return;
    const { kind: of, entry, mends } = editing;
    const placed =
      picture && (doc as Partial<BookDocs["fields"]>).siteId === PLACE_SHOWN
        ? { ...doc, siteId: await keepPlace(book, picture) }
        : doc;
    if (mends !== null) await theOutbox().decide((queue) => mended(queue, mends, placed));
    else await book.save(of, entry as never, placed as never);
    setSaid(`The ${KIND_WORDS[of].one} is kept.`);
    close();
  };
  const leave = async () => {
    const left = leftWords(outbox.queue.length, session?.holder?.name ?? "you");
    const told = signOut();
    // Out here at once; a server that does not answer is told later.
    await Promise.race([told, new Promise((done) => setTimeout(done, 2000))]);
    const late = isSigningOut()
      ? "Signed out on this device. The server could not be reached: it is told as soon as there is a signal."
      : "Signed out.";
    setSaid(`${late} ${left}`.trim());
    await book.signedOut();
  };
  const openField = (entry: Entry<"fields">, forecast: boolean) => {
    const { doc } = entry;
    dispatch({ kind: "inputs", what: "book field", inputs: inputsOfField(doc, state.inputs) });
    const place = placeOfField(doc, entries.sites);
    for (const [field, text] of place ? placeTexts(place) : []) dispatch({ kind: "place", field, text });
    if (forecast && place) {
      // What was mown and not brought in lies on the board of its field.
      const lying = madeOfBook(entry, entries.cuts, place, state.nowMs);
      if (lying.length > 0) dispatch({ kind: "made", made: joinMade(state.made, lying) });
      ask(place);
    }
    setSaid(`${doc.name} is on the page above${place ? ", and its place in the fields of the place" : ""}.`);
    if (forecast) scrollTo({ top: 0 });
  };
  const fieldActs = [
    {
      label: "Open on the page",
      onUse: (entry: ShownEntry) => openField(entry as Entry<"fields">, false),
    },
    {
      label: "With its forecast",
      onUse: (entry: ShownEntry) => openField(entry as Entry<"fields">, true),
    },
  ];

  if (needsKey)
    return (
      <div class="book">
        {waits === null ? null : <p class="book-waiting">{waits}</p>}
        <p role="status">{said}</p>
        <p>
          {isSigningOut()
            ? "To see the book, sign in when there is a signal."
            : "Sign in above to see the book."}
        </p>
      </div>
    );
  const placeShown = picture ? spotText(picture.source.series.site) : null;
  return (
    <div class="book">
      <div class="book-told" role="status">
        {waits === null ? null : <p class="book-waiting">{waits}</p>}
        {trouble === null ? null : (
          <p class="book-waiting">
            {trouble.kind === "no-signal"
              ? "No signal: this is the book as this device last saw it."
              : trouble.message}
          </p>
        )}
        {who === null ? null : (
          <p>
            {who}{" "}
            <button type="button" class="aid" onClick={() => void leave()}>
              Sign out
            </button>
          </p>
        )}
        {others === null ? null : <p>{others}</p>}
        {said === "" || outbox.queue.some(({ held }) => held !== null) ? null : <p>{said}</p>}
      </div>
      <Held
        queue={outbox.queue}
        book={entries}
        manner={manner}
        canEdit={canEdit}
        onDecide={(next) => void theOutbox().decide(next)}
        onMend={(change) => {
          const issues = change.held?.kind === "refused" ? change.held.issues : [];
          const of = SHOWN_KINDS.find((one) => one === change.kind);
          const { doc } = chainOf(outbox.queue, change.key).at(-1) ?? change;
          if (of) open({ kind: of, entry: null, doc, issues, mends: change.key });
        }}
      />
      {book.ready ? (
        <DueList items={due} nowMs={state.nowMs} manner={manner} />
      ) : (
        <p>The book is being opened ...</p>
      )}
      {canEdit && picture ? (
        <KeepButtons
          book={book}
          picture={picture}
          choice={choice}
          manner={manner}
          onKept={(of, text) => {
            setSaid(text);
            setKind(of);
          }}
        />
      ) : null}
      <nav class="book-kinds" aria-label="Parts of the book">
        {SHOWN_KINDS.map((one) => (
          <button
            type="button"
            key={one}
            aria-pressed={one === kind}
            onClick={() => {
              setKind(one);
              open(null);
            }}
          >
            {KIND_WORDS[one].many} <span class="book-count">{entries[one].length}</span>
          </button>
        ))}
      </nav>
      <section aria-label={KIND_WORDS[kind].many}>
        <h3 ref={list} tabIndex={-1}>
          {KIND_WORDS[kind].many}
        </h3>
        {OF_FIELD.has(kind) && entries.fields.length > 1 ? (
          <SelectField
            label="Of"
            value={fieldId}
            choices={[
              ["", "all fields"] as const,
              ...entries.fields.map(({ id, doc }) => [id, doc.name] as const),
            ]}
            onChoice={setFieldId}
          />
        ) : null}
        {editing === null ? (
          <>
            {canEdit ? (
              <button
                type="button"
                class="main"
                onClick={() =>
                  open({
                    kind,
                    entry: null,
                    doc: newDoc(kind, { book: entries, inputs: state.inputs, nowMs: state.nowMs, fieldId }),
                    issues: [],
                    mends: null,
                  })
                }
              >
                Add a {KIND_WORDS[kind].one}
              </button>
            ) : null}
            <EntryList
              key={kind}
              kind={kind}
              entries={shown}
              book={entries}
              manner={manner}
              canEdit={canEdit}
              onEdit={(entry) => open({ kind, entry, doc: entry.doc, issues: [], mends: null })}
              onRemove={(entry) => {
                const there = entries.fields.filter(({ doc }) => kind === "sites" && doc.siteId === entry.id);
                if (there.length > 0) {
                  const names = listText(there.map(({ doc }) => doc.name));
                  setSaid(`Not removed: ${names} would lose the clock. Give them another place first.`);
                  return;
                }
                void book.remove(kind, entry as never);
                setSaid(`The ${KIND_WORDS[kind].one} is removed.`);
              }}
              more={kind === "fields" ? fieldActs : []}
            />
          </>
        ) : (
          <EntryForm
            key={`${editing.kind} ${editing.entry?.id ?? editing.mends ?? "new"}`}
            kind={editing.kind}
            title={`${editing.entry ? "Edit" : editing.mends ? "Mend" : "Add"} ${KIND_WORDS[editing.kind].one}`}
            doc={editing.doc}
            issues={editing.issues}
            book={entries}
            manner={manner}
            nowMs={state.nowMs}
            placeShown={placeShown}
            onSave={(doc) => void save(doc)}
            onClose={close}
          />
        )}
      </section>
      <Fold class="book-more" summary="Forecasts, weather files, crew plans">
        {() => (
          <KeptList book={entries} queue={outbox.queue} manner={manner} canEdit={canEdit} seen={book.seen} />
        )}
      </Fold>
      <Fold class="book-more" summary="A look at the invented farm's book">
        {() => <DemoLook nowMs={state.nowMs} manner={manner} />}
      </Fold>
      <Fold class="book-more" summary="Export, import, tables, calendar">
        {() => <Papers session={session} canEdit={canEdit} onChanged={() => void book.reload()} />}
      </Fold>
    </div>
  );
}
