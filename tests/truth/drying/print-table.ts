// Prints README's accuracy table, to be pasted there after a change of the model.
import { accuracyTable } from "./table.ts";

console.log(accuracyTable());
