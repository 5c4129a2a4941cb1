import { type GrazingPlan, prussicDoubt } from "../../model/harvest/route-details/index.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import { useWidth } from "../format/use-width.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps, type PanelProps } from "../panel/panel-props.ts";
import type { FieldFacts } from "./facts.ts";
import { grazingSentence, grazingTable, planGrazing, residualOf, stripsOf } from "./grazing.ts";
import { heightText } from "./height.ts";
import { FoldedTable, Topic, Warning } from "./Told.tsx";
import "./grazing.css";

const MOST_PX = 520;
const FIELD_PX = 120;

/** The field from above: strips with their fence, or open without any. */
function FieldPicture({
  plan,
  areaHa,
  sentence,
  manner,
}: {
  readonly plan: GrazingPlan;
  readonly areaHa: number;
  readonly sentence: string;
  readonly manner: Manner;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, widthPx);
  const strips = stripsOf(plan, areaHa);
  const each = strips === 0 ? 0 : (width - 2) / strips;
  return (
    <figure class="handling-picture" ref={ref}>
      {width > 0 ? (
        <svg width={width} height={FIELD_PX + 24} role="img" aria-label={sentence}>
          <title>{sentence}</title>
          <rect class="graze-field" x="1" y="1" width={width - 2} height={FIELD_PX} />
          {strips > 0 ? <rect class="graze-now" x="1" y="1" width={each} height={FIELD_PX} /> : null}
          {Array.from({ length: Math.max(0, strips - 1) }, (_none, i) => (
            <path key={`fence ${i + 1}`} class="graze-fence" d={`M${1 + (i + 1) * each} 1v${FIELD_PX}`} />
          ))}
          {strips === 0 ? (
            <text class="graze-words" x={width / 2} y={FIELD_PX / 2 + 5} text-anchor="middle">
              the whole field, few animals, no strips
            </text>
          ) : null}
          <text class="handling-scale" x="1" y={FIELD_PX + 18}>
            {strips > 0 ? "first strip dark; " : ""}leave {heightText(residualOf(plan), manner)} standing
          </text>
        </svg>
      ) : null}
    </figure>
  );
}

/** Strips by daily need and yield; none are forced while nitrate is untested or over the first limit. */
export function Grazing({ facts, ...props }: PanelProps & { readonly facts: FieldFacts }) {
  const { manner } = props;
  const { dryMatterTHa, stubbleCm, areaHa, dailyNeedKgDm, plantHeightCm, nitratePpm, prussicPpm, limit } =
    facts;
  const known =
    dryMatterTHa !== null && stubbleCm !== null && areaHa !== null && dailyNeedKgDm !== null
      ? planGrazing({
          crop: facts.crop,
          dryMatterTHa,
          stubbleCm,
          areaHa,
          dailyNeedKgDm,
          plantHeightCm,
          nitratePpm,
          prussicPpm,
          firstLimitPpm: limit.ppm,
        })
      : null;
  const plan = known?.plan ?? null;
  const doubt = prussicDoubt({ crop: facts.crop, prussicPpm });
  const sentence =
    plan !== null
      ? grazingSentence(plan, manner)
      : known !== null && known.plan === null
        ? known.why
        : dailyNeedKgDm === null
          ? "Say what the animals need a day: the strips and days go by it."
          : "Yield, stubble and area are needed: see the field.";
  return (
    <Topic title="Grazing" sentence={sentence}>
      {plan?.manner === "strips" ? null : (
        <Warning>
          {doubt === null ? "" : `${doubt}. `}
          {nitratePpm === null
            ? "Nitrate is not tested: "
            : nitratePpm > limit.ppm
              ? "Nitrate is over the first limit: "
              : "Until then: "}
          no forced strips, light stocking, full bellies first. Laboratory, veterinarian and extension service
          decide.
        </Warning>
      )}
      {plan !== null && areaHa !== null ? (
        <FieldPicture plan={plan} areaHa={areaHa} sentence={sentence} manner={manner} />
      ) : null}
      <div class="handling-form">
        <TextField
          label="Daily need of the animals, dry matter"
          {...fieldProps(props, "dailyNeedKgDm", "of the whole herd")}
          unit={`${unitName("mass", manner.units)} a day`}
        />
      </div>
      {plan === null ? null : (
        <FoldedTable
          title="Table of the grazing"
          caption="How it is grazed, and what that goes by"
          heads={["What", "How much", "By"]}
          rows={grazingTable(plan, manner)}
        />
      )}
    </Topic>
  );
}
