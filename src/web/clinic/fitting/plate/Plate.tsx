import { type ReactNode, useEffect, useRef, useState } from "react";
import type { Outline } from "../../../../domain/outline/index.ts";
import { ClockRing, Sides } from "./ClockRing.tsx";
import { type Frame, frameOf, furthestMm, viewFor } from "./frame.ts";
import { GapFigures } from "./GapFigures.tsx";
import { Grid, ScaleBar } from "./Grid.tsx";
import { Hatching, type HourGap } from "./Hatching.tsx";
import {
  type Barrier,
  BarrierEdge,
  CentreMark,
  type Comparison,
  ComparisonLine,
  OpeningLine,
  StomaLine,
  StomaShape,
} from "./Outlines.tsx";
import { usePlateSize } from "./usePlateSize.ts";
import "./plate.css";

export interface PlateProps {
  /** The outline the figures are about. */
  stoma: Outline | null;
  /** It stands in the record: no reading is being written. */
  recorded: boolean;
  comparisons: readonly Comparison[];
  inUse: Outline | null;
  proposed: Outline | null;
  /** The opening whose bare skin is hatched, with its gap at each hour. */
  bare: { opening: Outline; gaps: readonly HourGap[] } | null;
  limitMm: number;
  barrier: Barrier | null;
  /** What to show each way, mm; null: as much as is needed. */
  viewMm: number | null;
  /** A handle is in hand: the scale must not change under it. */
  steady: boolean;
  label: string;
  describedBy: string;
  /** Under the grid: a scan. */
  under?: (frame: Frame) => ReactNode;
  /** Over everything: handles, a pen, marks. */
  over?: (frame: Frame) => ReactNode;
}

/** The stoma and its openings at many times their size, seen facing the person. Drawn in px of the screen. */
export function Plate(props: PlateProps) {
  const holder = useRef<HTMLDivElement>(null);
  const { widthPx, rootPx } = usePlateSize(holder);
  const viewMm = useView(props);
  const frame = widthPx > 0 ? frameOf(widthPx, rootPx, viewMm) : null;
  return (
    <div className="fit-plate" ref={holder} data-view-mm={viewMm} data-px-per-mm={frame?.pxPerMm.toFixed(4)}>
      {frame && <Drawing {...props} frame={frame} />}
    </div>
  );
}

function Drawing(props: PlateProps & { frame: Frame }) {
  const { frame, stoma, recorded, comparisons, inUse, proposed, bare, limitMm, barrier, under, over } = props;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing cannot be a fieldset
    <svg
      width={frame.widthPx}
      height={frame.heightPx}
      role="group"
      aria-label={props.label}
      aria-describedby={props.describedBy}
    >
      {under?.(frame)}
      <Grid frame={frame} />
      {stoma && bare && !under && (
        <Hatching frame={frame} opening={bare.opening} gaps={bare.gaps} limitMm={limitMm} />
      )}
      {stoma && !under && <StomaShape frame={frame} outline={stoma} />}
      {stoma && barrier && <BarrierEdge frame={frame} barrier={barrier} />}
      <ClockRing frame={frame} />
      {stoma && bare && <GapFigures frame={frame} gaps={bare.gaps} limitMm={limitMm} />}
      {comparisons.map((comparison) => (
        <ComparisonLine key={comparison.kind} frame={frame} comparison={comparison} />
      ))}
      {stoma && inUse && <OpeningLine frame={frame} outline={inUse} />}
      {stoma && proposed && <OpeningLine frame={frame} outline={proposed} proposed />}
      {stoma && <StomaLine frame={frame} outline={stoma} last={recorded} />}
      <CentreMark frame={frame} />
      <Sides frame={frame} />
      <ScaleBar frame={frame} />
      {over?.(frame)}
    </svg>
  );
}

const marginMm = 0.5;

function useView({ viewMm, steady, stoma, inUse, proposed, comparisons }: PlateProps): number {
  const needed = viewFor(
    Math.max(
      20,
      furthestMm([stoma, inUse, proposed, ...comparisons.map(({ outline }) => outline)]) + marginMm,
    ),
  );
  const wanted = viewMm ?? needed;
  const [held, setHeld] = useState(wanted);
  useEffect(() => {
    if (!steady) setHeld(wanted);
  }, [steady, wanted]);
  return steady ? held : wanted;
}
