import { memo } from "react";
import type { Frame } from "./frame.ts";
import { Unspoken } from "./Unspoken.tsx";

/** Below this many pixels a millimetre, single millimetres would be a grey wash. */
const finestPx = 3.2;

/** Millimetre grid through the centre, every tenth line stronger, with a scale bar. */
export const Grid = memo(function Grid({ frame }: { frame: Frame }) {
  const fineMm = frame.pxPerMm >= finestPx ? 1 : 5;
  return (
    <Unspoken>
      <path className="fit-grid" d={lines(frame, fineMm)} />
      <path className="fit-grid-ten" d={lines(frame, 10)} />
    </Unspoken>
  );
});

/** Ten millimetres in the lower left corner. */
export const ScaleBar = memo(function ScaleBar({ frame }: { frame: Frame }) {
  const { heightPx, textPx, pxPerMm } = frame;
  const [left, foot] = [0.6 * textPx, heightPx - 0.6 * textPx];
  const length = 10 * pxPerMm;
  return (
    <Unspoken>
      <path className="fit-scale" d={`M${left} ${foot - 8}v8h${length}v-8`} />
      <text
        className="fit-over"
        x={left + length / 2}
        y={foot - 0.55 * textPx}
        textAnchor="middle"
        fontSize={0.95 * textPx}
      >
        10 mm
      </text>
    </Unspoken>
  );
});

function lines({ widthPx, heightPx, centrePx: [x, y], pxPerMm }: Frame, everyMm: number): string {
  const step = everyMm * pxPerMm;
  const upright = steps(x, widthPx, step).map((at) => `M${at} 0V${heightPx}`);
  const across = steps(y, heightPx, step).map((at) => `M0 ${at}H${widthPx}`);
  return [...upright, ...across].join("");
}

function steps(from: number, end: number, step: number): string[] {
  const places: string[] = [];
  for (let at = from % step; at <= end; at += step) places.push(at.toFixed(2));
  return places;
}
