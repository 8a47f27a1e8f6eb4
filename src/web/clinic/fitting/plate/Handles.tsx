import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import type { Point } from "../../../../domain/outline/index.ts";
import { type Handle, handleRangeMm, hourWords } from "../handles/index.ts";
import { atHour, type Frame, toMm } from "./frame.ts";
import { placeOf } from "./place.ts";
import { Unspoken } from "./Unspoken.tsx";

/** Half of the least size of a target for a finger. */
const reachPx = 22;
const fineMm = 0.1;
const coarseMm = 1;

/** Millimetres outward for each key. */
function stepOf({ key, shiftKey }: KeyboardEvent): number | null {
  const step = shiftKey ? coarseMm : fineMm;
  if (key === "ArrowUp" || key === "ArrowRight") return step;
  if (key === "ArrowDown" || key === "ArrowLeft") return -step;
  if (key === "PageUp") return coarseMm;
  return key === "PageDown" ? -coarseMm : null;
}

interface HandlesProps {
  frame: Frame;
  handles: readonly Handle[];
  /** One gesture is one step to undo. */
  onMove: (hour: number, radiusMm: number, gesture: string) => void;
  /** The gesture is over. */
  onSettled: () => void;
  onDragging: (dragging: boolean) => void;
}

/** Handles on the stoma's line: dragged by mouse, pen or finger, or moved by the arrow keys. */
export function Handles({ frame, handles, onMove, onSettled, onDragging }: HandlesProps) {
  const [held, setHeld] = useState<number | null>(null);
  const drag = useDrag({ frame, handles, onMove, onSettled, onDragging });
  const shown = handles.find(({ hour }) => hour === held);
  const keyDown = (event: KeyboardEvent, { hour, radiusMm }: Handle) => {
    const step = stepOf(event);
    if (step === null) return;
    event.preventDefault();
    onMove(hour, Math.round((radiusMm + step) * 10) / 10, `keys.${hour}`);
  };
  return (
    <g onPointerDown={drag.start} onPointerMove={drag.move} onPointerUp={drag.end} onPointerCancel={drag.end}>
      {shown && <HeldReading frame={frame} handle={shown} />}
      {handles.map((handle) => (
        <HandleMark
          key={handle.hour}
          frame={frame}
          handle={handle}
          held={handle.hour === held}
          onKeyDown={(event) => keyDown(event, handle)}
          onHold={(holding) => {
            setHeld((now) => (holding ? handle.hour : now === handle.hour ? null : now));
            if (!holding) onSettled();
          }}
        />
      ))}
    </g>
  );
}

function HandleMark({
  frame,
  handle: { hour, radiusMm },
  held,
  onKeyDown,
  onHold,
}: {
  frame: Frame;
  handle: Handle;
  held: boolean;
  onKeyDown: (event: KeyboardEvent) => void;
  onHold: (holding: boolean) => void;
}) {
  const [x, y] = atHour(frame, hour, radiusMm * frame.pxPerMm);
  return (
    <g
      className="fit-handle"
      tabIndex={0}
      role="slider"
      aria-label={`Edge at ${hourWords(hour)}, from the centre`}
      aria-valuemin={handleRangeMm.least}
      aria-valuemax={handleRangeMm.most}
      aria-valuenow={Math.round(radiusMm * 10) / 10}
      aria-valuetext={`${radiusMm.toFixed(1)} millimetres`}
      data-hour={hour}
      onKeyDown={onKeyDown}
      onFocus={() => onHold(true)}
      onBlur={() => onHold(false)}
    >
      <circle className="fit-handle-reach" cx={x} cy={y} r={reachPx} />
      {held && <circle className="fit-handle-held" cx={x} cy={y} r="14" />}
      <circle className="fit-handle-dot" cx={x} cy={y} r="7.2" />
    </g>
  );
}

/** The handle in hand, in words, at the centre where nothing else is. */
function HeldReading({ frame, handle: { hour, radiusMm } }: { frame: Frame; handle: Handle }) {
  const { centrePx, textPx } = frame;
  return (
    <Unspoken textAnchor="middle">
      <text x={centrePx[0]} y={centrePx[1] + 1.9 * textPx} fontSize={1.15 * textPx} fontWeight="700">
        {hourWords(hour)}
      </text>
      <text x={centrePx[0]} y={centrePx[1] + 3.2 * textPx} fontSize={textPx}>
        {radiusMm.toFixed(1)} mm out
      </text>
    </Unspoken>
  );
}

interface Drag {
  pointer: number;
  hour: number;
  /** What the finger missed the handle by, so that the edge does not jump to it. */
  missedMm: number;
  gesture: string;
  frame: Frame;
}

/** One move a frame however fast the pointer reports; the scale stays as it was when the drag began. */
function useDrag({ frame, handles, onMove, onSettled, onDragging }: HandlesProps) {
  const drag = useRef<Drag | null>(null);
  const wanted = useRef<number | null>(null);
  const request = useRef(0);
  useEffect(() => () => cancelAnimationFrame(request.current), []);

  const flush = () => {
    request.current = 0;
    if (drag.current && wanted.current !== null)
      onMove(drag.current.hour, wanted.current, drag.current.gesture);
    wanted.current = null;
  };

  return {
    start(event: PointerEvent<SVGGElement>) {
      if (event.button !== 0) return;
      const place = placeOf(event);
      const nearest = nearestHandle(frame, handles, place);
      if (!nearest) return;
      event.preventDefault();
      event.currentTarget.setPointerCapture(event.pointerId);
      event.currentTarget.querySelector<SVGGElement>(`[data-hour="${nearest.hour}"]`)?.focus();
      drag.current = {
        pointer: event.pointerId,
        hour: nearest.hour,
        missedMm: nearest.radiusMm - alongHour(frame, nearest.hour, place),
        gesture: `drag.${event.timeStamp}`,
        frame,
      };
      onDragging(true);
    },
    move(event: PointerEvent<SVGGElement>) {
      const held = drag.current;
      if (held?.pointer !== event.pointerId) return;
      wanted.current = alongHour(held.frame, held.hour, placeOf(event)) + held.missedMm;
      request.current ||= requestAnimationFrame(flush);
    },
    end(event: PointerEvent<SVGGElement>) {
      if (drag.current?.pointer !== event.pointerId) return;
      cancelAnimationFrame(request.current);
      flush();
      drag.current = null;
      onDragging(false);
      onSettled();
    },
  };
}

/** How far out a place lies in the direction of an hour, mm. */
function alongHour(frame: Frame, hour: number, place: Point): number {
  const [x, y] = toMm(frame, place);
  const turn = (hour * Math.PI) / 6;
  return x * Math.sin(turn) + y * Math.cos(turn);
}

function nearestHandle(frame: Frame, handles: readonly Handle[], [px, py]: Point): Handle | null {
  let nearest: Handle | null = null;
  let nearestPx = reachPx;
  for (const handle of handles) {
    const [x, y] = atHour(frame, handle.hour, handle.radiusMm * frame.pxPerMm);
    const away = Math.hypot(px - x, py - y);
    if (away > nearestPx) continue;
    [nearest, nearestPx] = [handle, away];
  }
  return nearest;
}
