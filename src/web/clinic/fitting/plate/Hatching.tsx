import { useId } from "react";
import type { Outline } from "../../../../domain/outline/index.ts";
import { atHour, type Frame, outlinePath } from "./frame.ts";
import { Unspoken } from "./Unspoken.tsx";

/** The gap at one clock hour, mm; null where the opening does not reach. Below 0 the opening lies in the stoma. */
export interface HourGap {
  hour: number;
  maxGapMm: number | null;
  minGapMm: number | null;
}

/** Line widths of the hatching: within the protocol's limit, past it, and past it by a quarter. */
const widthsPx = [1, 2.1, 3.7] as const;
const farPast = 1.25;

/** Which of the three hatchings stands for a gap. */
export function hatchingOf(gapMm: number, limitMm: number): 0 | 1 | 2 {
  if (gapMm <= limitMm) return 0;
  return gapMm <= limitMm * farPast ? 1 : 2;
}

/** Bare skin: the opening filled hour by hour, denser past the protocol value. The stoma is drawn over it. */
export function Hatching({
  frame,
  opening,
  gaps,
  limitMm,
}: {
  frame: Frame;
  opening: Outline;
  gaps: readonly HourGap[];
  limitMm: number;
}) {
  const id = useId();
  const d = outlinePath(frame, opening);
  return (
    <Unspoken>
      <defs>
        {widthsPx.map((width, level) => (
          <HatchPattern key={width} id={`${id}-hatch-${level}`} widthPx={width} />
        ))}
        <clipPath id={`${id}-opening`}>
          <path d={d} />
        </clipPath>
      </defs>
      <g clipPath={`url(#${id}-opening)`}>
        {gaps.map(({ hour, maxGapMm }) =>
          maxGapMm === null || maxGapMm <= 0 ? null : (
            <path
              key={hour}
              d={wedge(frame, hour)}
              fill={`url(#${id}-hatch-${hatchingOf(maxGapMm, limitMm)})`}
            />
          ),
        )}
      </g>
    </Unspoken>
  );
}

export function HatchPattern({ id, widthPx }: { id: string; widthPx: number }) {
  return (
    <pattern id={id} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line x1="4.5" y1="0" x2="4.5" y2="9" stroke="var(--ink)" strokeWidth={widthPx} />
    </pattern>
  );
}

/** The part of the plate that belongs to an hour: 15° either side of it. */
function wedge(frame: Frame, hour: number): string {
  const [cx, cy] = frame.centrePx;
  const far = 2 * frame.ringPx;
  const [from, to] = [atHour(frame, hour - 0.5, far), atHour(frame, hour + 0.5, far)];
  return `M${cx} ${cy}L${from[0].toFixed(1)} ${from[1].toFixed(1)}L${to[0].toFixed(1)} ${to[1].toFixed(1)}Z`;
}
