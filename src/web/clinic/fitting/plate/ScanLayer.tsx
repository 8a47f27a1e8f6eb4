import { type KeyboardEvent, type PointerEvent, useRef } from "react";
import type { Point } from "../../../../domain/outline/index.ts";
import { onPicture, onPlate, type Scan } from "../state/scan.ts";
import { type Frame, toMm, toPx } from "./frame.ts";
import { placeOf } from "./place.ts";
import { Unspoken } from "./Unspoken.tsx";

const fineMm = 0.2;
const coarseMm = 2;

/** The picture under the grid. */
export function ScanPicture({ frame, scan }: { frame: Frame; scan: Scan }) {
  const [x, y] = toPx(frame, scan.middleMm);
  const scale = scan.mmPerPx * frame.pxPerMm;
  const { widthPx, heightPx, turnDeg, mirrored } = scan;
  return (
    <Unspoken>
      <image
        href={scan.url}
        x={-widthPx / 2}
        y={-heightPx / 2}
        width={widthPx}
        height={heightPx}
        transform={`translate(${x} ${y}) rotate(${turnDeg}) scale(${mirrored ? -scale : scale} ${scale})`}
      />
    </Unspoken>
  );
}

/** Two crosses to lay on the ends of a known length. */
export function ScanMarks({
  frame,
  scan,
  onScan,
}: {
  frame: Frame;
  scan: Scan;
  onScan: (scan: Scan) => void;
}) {
  const places = scan.marks.map((mark) => onPlate(scan, mark));
  const put = (index: number, placeMm: Point) => {
    const moved = onPicture(scan, placeMm);
    const [a, b] = scan.marks;
    onScan({ ...scan, marks: index === 0 ? [moved, b] : [a, moved], toScale: false });
  };
  const [from, to] = places.map((place) => toPx(frame, place)) as [Point, Point];
  return (
    <g>
      <Unspoken>
        <line className="fit-mark-line" x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
      </Unspoken>
      {places.map((place, index) => (
        <Movable
          key={index === 0 ? "first" : "second"}
          frame={frame}
          label={index === 0 ? "First mark on the scan" : "Second mark on the scan"}
          atMm={place}
          onMove={(placeMm) => put(index, placeMm)}
        >
          <MarkCross at={toPx(frame, place)} />
        </Movable>
      ))}
    </g>
  );
}

/** The whole picture, to be pushed into place. */
export function ScanMover({
  frame,
  scan,
  onScan,
}: {
  frame: Frame;
  scan: Scan;
  onScan: (scan: Scan) => void;
}) {
  return (
    <Movable
      frame={frame}
      label="The scan under the grid"
      atMm={scan.middleMm}
      onMove={(middleMm) => onScan({ ...scan, middleMm })}
    >
      <rect className="fit-paper" width={frame.widthPx} height={frame.heightPx} />
    </Movable>
  );
}

function MarkCross({ at: [x, y] }: { at: Point }) {
  const cross = `M${x - 13} ${y}h26M${x} ${y - 13}v26`;
  return (
    <>
      <circle className="fit-handle-reach" cx={x} cy={y} r="22" />
      <circle className="fit-mark-ring" cx={x} cy={y} r="9" />
      <path className="fit-mark-ground" d={cross} />
      <path className="fit-mark" d={cross} />
    </>
  );
}

const directions: Record<string, Point> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Something on the plate that is dragged, or moved by the arrow keys. */
function Movable({
  frame,
  label,
  atMm,
  onMove,
  children,
}: {
  frame: Frame;
  label: string;
  atMm: Point;
  onMove: (atMm: Point) => void;
  children: React.ReactNode;
}) {
  const held = useRef<{ pointer: number; missedMm: Point } | null>(null);
  const keyDown = (event: KeyboardEvent) => {
    const direction = directions[event.key];
    if (!direction) return;
    event.preventDefault();
    const step = event.shiftKey ? coarseMm : fineMm;
    onMove([atMm[0] + direction[0] * step, atMm[1] + direction[1] * step]);
  };
  const start = (event: PointerEvent<SVGGElement>) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus();
    const [x, y] = toMm(frame, placeOf(event));
    held.current = { pointer: event.pointerId, missedMm: [atMm[0] - x, atMm[1] - y] };
  };
  const move = (event: PointerEvent<SVGGElement>) => {
    if (held.current?.pointer !== event.pointerId) return;
    const [x, y] = toMm(frame, placeOf(event));
    onMove([x + held.current.missedMm[0], y + held.current.missedMm[1]]);
  };
  const end = () => {
    held.current = null;
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no button element
    <g
      className="fit-movable"
      tabIndex={0}
      role="button"
      aria-roledescription="movable mark"
      aria-label={`${label}: ${atMm[0].toFixed(1)} mm across, ${atMm[1].toFixed(1)} mm up. Arrow keys move it.`}
      onKeyDown={keyDown}
      onPointerDown={start}
      onPointerMove={move}
      onPointerUp={end}
      onPointerCancel={end}
    >
      {children}
    </g>
  );
}
