import type { Manner } from "../format/manner.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import type { ShownKind } from "./book-data.ts";
import { isTold } from "./is-told.ts";
import { keepIssued } from "./keep-issued.ts";
import { keepCut, keepField } from "./keep-page.ts";
import { cutCaution } from "./label-caution.ts";
import type { BookOnPage } from "./use-book.ts";

interface KeepButtonsProps {
  readonly book: BookOnPage;
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly manner: Manner;
  readonly onKept: (kind: ShownKind, said: string) => void;
}

/** What stands on the page put into the book: the field with its levers, the chosen cut. */
export function KeepButtons({ book, picture, choice, manner, onKept }: KeepButtonsProps) {
  /** The forecast on the page is of what was just kept. */
  const keepForecast = () => {
    if (choice && isTold(picture, choice)) void keepIssued(picture, choice, Date.now()).catch(() => {});
  };
  const field = async () => {
    await keepField(book, picture);
    keepForecast();
    onKept("fields", `${picture.inputs.fieldName} is kept with its levers.`);
  };
  const cut = async (chosen: Choice) => {
    const kept = await keepCut(book, picture, chosen);
    keepForecast();
    onKept("cuts", `The chosen cut is kept as planned. ${cutCaution(kept, book.entries, manner)}`.trim());
  };
  return (
    <div class="book-buttons">
      <button type="button" class="aid" onClick={() => void field()}>
        Keep the field on the page
      </button>
      {choice ? (
        <button type="button" class="aid" onClick={() => void cut(choice)}>
          Keep this cut
        </button>
      ) : null}
    </div>
  );
}
