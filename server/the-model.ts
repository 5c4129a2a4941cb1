import { MODEL_VERSION } from "../model/drying/index.ts";
import { feedCheck } from "../model/feed/index.ts";
import { answerWindows } from "../model/harvest/index.ts";
import { drydownWithOdds } from "../model/odds/index.ts";
import { CANONICAL_CSV_TEMPLATE } from "../model/weather/index.ts";
import type { AppModel } from "./app.ts";
import { crewPlanHere } from "./crew/plan-here.ts";
import { checkUpload } from "./uploads/check-upload.ts";

/** The model as the API and the command line call it. */
export const theModel: AppModel = {
  version: MODEL_VERSION,
  drydown: (request) => drydownWithOdds(request),
  findWindows: answerWindows,
  feedCheck,
  crewPlan: crewPlanHere,
  checkUpload,
  template: CANONICAL_CSV_TEMPLATE,
};
