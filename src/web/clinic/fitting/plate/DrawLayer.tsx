import { type PointerEvent, useRef, useState } from "react";
import type { Point } from "../../../../domain/outline/index.ts";
import { type Frame, linePath, toMm } from "./frame.ts";
import { placeOf } from "./place.ts";

/** A point is kept when the pen has moved this far; a closer one is the hand at rest. */
const leastStepPx = 1.5;

/** The plate as paper: a line drawn by finger, pen or mouse, handed over in mm when the pen is lifted. */
export function DrawLayer({ frame, onDrawn }: { frame: Frame; onDrawn: (line: Point[]) => void }) {
  const [line, setLine] = useState<Point[]>([]);
  const pen = useRef<number | null>(null);

  const start = (event: PointerEvent<SVGRectElement>) => {
    if (event.button !== 0 || pen.current !== null) return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    pen.current = event.pointerId;
    setLine([toMm(frame, placeOf(event))]);
  };
  const move = (event: PointerEvent<SVGRectElement>) => {
    if (pen.current !== event.pointerId) return;
    const { left, top } = event.currentTarget.ownerSVGElement!.getBoundingClientRect();
    const passed = event.nativeEvent.getCoalescedEvents?.() ?? [];
    const places = (passed.length > 0 ? passed : [event.nativeEvent]).map(
      ({ clientX, clientY }): Point => toMm(frame, [clientX - left, clientY - top]),
    );
    setLine((now) =>
      places.reduce((drawn, place) => withPoint(drawn, place, leastStepPx / frame.pxPerMm), now),
    );
  };
  const end = (event: PointerEvent<SVGRectElement>) => {
    if (pen.current !== event.pointerId) return;
    pen.current = null;
    setLine([]);
    onDrawn(line);
  };
  return (
    <g>
      <rect
        className="fit-paper"
        width={frame.widthPx}
        height={frame.heightPx}
        onPointerDown={start}
        onPointerMove={move}
        onPointerUp={end}
        onPointerCancel={() => {
          pen.current = null;
          setLine([]);
        }}
      />
      {line.length > 1 && <path className="fit-pen" d={linePath(frame, line)} />}
    </g>
  );
}

function withPoint(line: Point[], point: Point, leastMm: number): Point[] {
  const last = line.at(-1);
  if (last && Math.hypot(point[0] - last[0], point[1] - last[1]) < leastMm) return line;
  return [...line, point];
}
