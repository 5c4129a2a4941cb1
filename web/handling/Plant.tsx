import { type Manner, numberText } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { type PlantLine, plantPicture } from "./plant.ts";
import "./plant.css";

const MOST_PX = 460;
const STALK_X = 70;

/** A plant and the heights that it is cut at; the nitrate of its thirds where its height is known. */
export function Plant({
  plantHeightCm,
  lines,
  profile,
  sentence,
  manner,
}: {
  readonly plantHeightCm: number | null;
  readonly lines: readonly PlantLine[];
  /** Whether the published thirds are of this kind of plant. */
  readonly profile: boolean;
  readonly sentence: string;
  readonly manner: Manner;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, widthPx);
  const { heightPx, groundY, topY, soilY, thirds, lines: placed } = plantPicture(plantHeightCm, lines);
  const leaf = (y: number, side: 1 | -1) =>
    `M${STALK_X} ${y}q${side * 16} ${-26} ${side * 44} ${-14}q${-side * 22} ${0} ${-side * 44} ${14}`;
  return (
    <figure class="handling-picture" ref={ref}>
      {width > 0 ? (
        <svg width={width} height={heightPx} role="img" aria-label={sentence}>
          <title>{sentence}</title>
          <rect class="plant-soil" x="0" y={soilY} width={width} height={groundY - soilY} />
          <path class="plant-ground" d={`M0 ${groundY}H${width}`} />
          <text class="handling-scale" x={width} y={groundY + 17} text-anchor="end">
            soil is taken in the grey
          </text>
          {[0.3, 0.48, 0.66, 0.84].map((share, i) => (
            <path
              key={share}
              class="plant-leaf"
              d={leaf(groundY - share * (groundY - topY), i % 2 ? 1 : -1)}
            />
          ))}
          <path class="plant-stalk" d={`M${STALK_X} ${groundY}V${topY}`} />
          {profile
            ? thirds.map(({ y, height, nitrateShare }) => (
                <g key={y}>
                  <rect
                    class="plant-third"
                    x={STALK_X - 6}
                    y={y}
                    width="12"
                    height={height}
                    fill-opacity={nitrateShare}
                  />
                  <text class="handling-scale" x="2" y={y + height / 2 + 5}>
                    {numberText(nitrateShare * 100, 0, manner)} %
                  </text>
                </g>
              ))
            : null}
          {placed.map(({ key, text, y, textY }) => (
            <g key={key} class={`plant-cut cut-${key}`}>
              <path d={`M${STALK_X - 30} ${y}H150`} />
              <text x="156" y={textY}>
                {text}
              </text>
            </g>
          ))}
        </svg>
      ) : null}
      {profile && thirds.length > 0 ? (
        <figcaption class="hint">
          Dark = share of the plant's nitrate in each third of the stalk, published drought corn (values from
          memory). One field had it 3 ft up: test the crop as cut.
        </figcaption>
      ) : null}
    </figure>
  );
}
