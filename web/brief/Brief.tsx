import { useMemo } from "preact/hooks";
import type { FeedInputs, SamplingInputs } from "../feed/feed-inputs.ts";
import type { Manner } from "../format/manner.ts";
import { headAndFoot } from "../print/PrintHead.tsx";
import { SETS_MARGINS } from "../print/paper.ts";
import { sideBySide } from "../routes/route-rows.ts";
import type { Choice } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import type { Picture } from "../state/state.ts";
import { BriefFeed } from "./BriefFeed.tsx";
import { BriefRoutes } from "./BriefRoutes.tsx";
import { feedBrief } from "./feed-brief.ts";
import "../feed/feed.css";
import "../routes/routes.css";
import "./brief.css";

export interface BriefProps {
  /** The answer with what it was worked out from. */
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly manner: Manner;
  readonly nowMs: number;
  /** What the fields say now: ticks of the gate change no answer, and are taken from here. */
  readonly inputs: Inputs;
  /** Null = the feed check was never touched: its example is not printed. */
  readonly feed: FeedInputs | null;
  readonly sampling: SamplingInputs | null;
}

/** The adviser's brief: routes on the first sheet; feed check, gate, cautions and sources on the second. */
export function Brief({ picture, choice, manner, nowMs, inputs, feed: typed, sampling }: BriefProps) {
  const told = useMemo(
    () => ({ ...picture, inputs: { ...picture.inputs, settled: inputs.settled } }),
    [picture, inputs],
  );
  const side = useMemo(() => sideBySide(picture, choice), [picture, choice]);
  const feed = useMemo(() => feedBrief(typed, manner), [typed, manner]);
  const [title, when, weather] = headAndFoot({ picture, nowMs, manner });
  return (
    <>
      <section class="brief-sheet">
        <div class="brief-in">
          {SETS_MARGINS ? null : (
            <p class="brief-head">
              <span>
                {title}. {weather}.
              </span>
              <span>{when}</span>
            </p>
          )}
          <BriefRoutes picture={told} side={side} choice={choice} feed={feed} manner={manner} nowMs={nowMs} />
        </div>
      </section>
      <section class="brief-sheet">
        <div class="brief-in">
          <BriefFeed
            picture={told}
            side={side}
            feed={feed}
            sampling={sampling}
            manner={manner}
            nowMs={nowMs}
          />
        </div>
      </section>
    </>
  );
}
