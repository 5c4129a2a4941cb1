/** All of the book that the page fetches, in one script, only once it is asked for. */

export { Book } from "./Book.tsx";
export { keepIssued } from "./keep-issued.ts";
export { dropLearnedRates, keepLearnedRate, learnedOfBook } from "./keep-learned.ts";
export { keepReading } from "./keep-reading.ts";
export { SignIn } from "./SignIn.tsx";
export { WaitingLine } from "./WaitingLine.tsx";
