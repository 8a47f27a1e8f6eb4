import { oneDecimal } from "../figures/words.ts";
import { atHour, type Frame } from "./frame.ts";
import type { HourGap } from "./Hatching.tsx";
import { Unspoken } from "./Unspoken.tsx";

/** The widest gap at each hour, heavy where it is past the protocol's value or where the opening cuts in. */
export function GapFigures({
  frame,
  gaps,
  limitMm,
}: {
  frame: Frame;
  gaps: readonly HourGap[];
  limitMm: number;
}) {
  const { ringPx, textPx } = frame;
  const size = 1.15 * textPx;
  return (
    <Unspoken>
      {gaps.map((gap) => {
        const { hour } = gap;
        const shownMm = gapToShow(gap);
        if (shownMm === null) return null;
        const [x, y] = atHour(frame, hour, ringPx - 1.45 * textPx);
        const text = oneDecimal(shownMm);
        const wide = (text.length * 0.56 + 0.45) * size;
        return (
          <g key={hour}>
            <rect
              className="fit-figure-ground"
              x={x - wide / 2}
              y={y - 0.72 * size}
              width={wide}
              height={1.44 * size}
              rx="3"
            />
            <text
              x={x}
              y={y + 0.36 * size}
              textAnchor="middle"
              fontSize={size}
              fontWeight={isHeavy(shownMm, limitMm) ? 800 : 400}
            >
              {text}
            </text>
          </g>
        );
      })}
    </Unspoken>
  );
}

/** A place where the opening cuts in matters more than the widest gap beside it. */
export function gapToShow({ maxGapMm, minGapMm }: HourGap): number | null {
  return minGapMm !== null && minGapMm < 0 ? minGapMm : maxGapMm;
}

/** Decided on the figure itself, not on what it rounds to. */
export function isHeavy(gapMm: number, limitMm: number): boolean {
  return gapMm > limitMm || gapMm < 0;
}
