import { memo } from "react";
import { atHour, type Frame } from "./frame.ts";
import { Unspoken } from "./Unspoken.tsx";

const hours = Array.from({ length: 12 }, (_, i) => i + 1);

/** The clock's face: hours outside, a tick each two minutes of arc of it. */
export const ClockRing = memo(function ClockRing({ frame }: { frame: Frame }) {
  const { centrePx, ringPx, textPx } = frame;
  const ticks = Array.from({ length: 60 }, (_, i) => {
    const [inner, outer] = i % 5 === 0 ? [0, 7] : [-4, 0];
    const [a, b] = [atHour(frame, i / 5, ringPx + inner), atHour(frame, i / 5, ringPx + outer)];
    return `M${a[0].toFixed(1)} ${a[1].toFixed(1)}L${b[0].toFixed(1)} ${b[1].toFixed(1)}`;
  });
  return (
    <Unspoken>
      <circle className="fit-ring" cx={centrePx[0]} cy={centrePx[1]} r={ringPx} />
      <path className="fit-ticks" d={ticks.join("")} />
      {hours.map((hour) => {
        const [x, y] = atHour(frame, hour, ringPx + 7 + 0.8 * textPx);
        return (
          <text
            key={hour}
            className="c2 fit-over"
            x={x}
            y={y + 0.33 * textPx}
            textAnchor="middle"
            fontSize={0.95 * textPx}
          >
            {hour}
          </text>
        );
      })}
    </Unspoken>
  );
});

/** Which way is the head, and whose left and right these are: never left out. */
export const Sides = memo(function Sides({ frame }: { frame: Frame }) {
  const { widthPx, textPx, centrePx } = frame;
  const top = 0.35 * textPx;
  const size = textPx;
  return (
    <Unspoken className="fit-sides" fontSize={size}>
      <path d={`M${centrePx[0]} ${top}l${0.62 * size} ${0.95 * size}h${-1.24 * size}z`} />
      <text className="fit-over" x={centrePx[0] + 1.1 * size} y={top + 0.85 * size}>
        head
      </text>
      <text className="fit-over" x={0.5 * size} y={1.6 * size}>
        person’s right
      </text>
      <text className="fit-over" x={widthPx - 0.5 * size} y={1.6 * size} textAnchor="end">
        person’s left
      </text>
    </Unspoken>
  );
});
