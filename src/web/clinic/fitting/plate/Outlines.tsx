import type { Outline, Point } from "../../../../domain/outline/index.ts";
import { type Frame, outlinePath, toPx } from "./frame.ts";
import { Unspoken } from "./Unspoken.tsx";

/** The stoma at the skin: the one thing in colour. Filled, so that what lies under it does not show through. */
export function StomaShape({ frame, outline }: { frame: Frame; outline: Outline }) {
  const d = outlinePath(frame, outline);
  return (
    <Unspoken>
      <path className="fit-stoma-ground" d={d} />
      <path className="fit-stoma-wash" d={d} />
    </Unspoken>
  );
}

/** Its line, drawn last so that no opening hides it. */
export function StomaLine({ frame, outline, last }: { frame: Frame; outline: Outline; last?: boolean }) {
  return (
    <Unspoken>
      <path
        className={last ? "fit-stoma-line fit-stoma-last" : "fit-stoma-line"}
        d={outlinePath(frame, outline)}
      />
    </Unspoken>
  );
}

/** Another line of the stoma for comparison. */
export interface Comparison {
  /** The reading before, or the hand's line before smoothing. */
  kind: "before" | "raw";
  outline: Outline;
}

export function ComparisonLine({ frame, comparison }: { frame: Frame; comparison: Comparison }) {
  return (
    <Unspoken>
      <path className={`fit-stoma-${comparison.kind}`} d={outlinePath(frame, comparison.outline)} />
    </Unspoken>
  );
}

/** An opening: dashed where it is in use, solid and heavier where it is proposed. */
export function OpeningLine({
  frame,
  outline,
  proposed,
}: {
  frame: Frame;
  outline: Outline;
  proposed?: boolean;
}) {
  const d = outlinePath(frame, outline);
  if (!proposed)
    return (
      <Unspoken>
        <path className="fit-in-use" d={d} />
      </Unspoken>
    );
  return (
    <Unspoken>
      <path className="fit-proposed-edge" d={d} />
      <path className="fit-proposed" d={d} />
    </Unspoken>
  );
}

/** The edge of a round barrier. */
export interface Barrier {
  centreMm: Point;
  radiusMm: number;
}

/** Drawn where it lies on the plate. */
export function BarrierEdge({ frame, barrier }: { frame: Frame; barrier: Barrier }) {
  const [x, y] = toPx(frame, barrier.centreMm);
  return (
    <Unspoken>
      <circle className="fit-barrier" cx={x} cy={y} r={barrier.radiusMm * frame.pxPerMm} />
    </Unspoken>
  );
}

/** Where the outline has its centre. */
export function CentreMark({ frame }: { frame: Frame }) {
  const [x, y] = frame.centrePx;
  return (
    <Unspoken>
      <path className="fit-centre" d={`M${x - 11} ${y}h22M${x} ${y - 11}v22`} />
    </Unspoken>
  );
}
