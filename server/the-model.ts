import { drydown } from "../model/drying/drydown.ts";
import { findWindows } from "../model/harvest/board.ts";
import type { AppModel } from "./app.ts";

/** The model as the API and the command line call it. */
export const theModel: AppModel = {
  version: "1",
  drydown,
  findWindows,
  checkUpload: () => {
    throw new Error("no reader of CSV files yet");
  },
  template: "",
};
