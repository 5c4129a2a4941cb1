import { HowWorked } from "../answer/HowWorked.tsx";
import { PrintSheet, type PrintSheetProps } from "../print/PrintSheet.tsx";

/** Under the course: the sheet that is only printed, and how the answer was worked out. */
export function Foot(props: PrintSheetProps) {
  return (
    <>
      <PrintSheet {...props} />
      <HowWorked picture={props.picture} />
    </>
  );
}
