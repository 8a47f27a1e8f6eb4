import { useMemo, useState } from "react";
import type { Healing, StomaStory } from "../../../../record/story/index.ts";
import { useDrawing } from "../../../shared/chart/index.ts";
import { Choice } from "../../../shared/ui/index.ts";
import { useBench } from "../../frame/index.tsx";
import { ribbonCaption, ribbonWords } from "./captions.ts";
import { EventRow } from "./EventRow.tsx";
import { FitsUntilMark } from "./FitsUntilMark.tsx";
import { type Axis, ribbonFacts, tellingAxis } from "./facts.ts";
import { ribbonLayout } from "./layout.ts";
import { OpeningLine } from "./OpeningLine.tsx";
import { RibbonTable } from "./RibbonTable.tsx";
import { SizeRow } from "./SizeRow.tsx";
import { TimeAxis, TodayLine } from "./TimeAxis.tsx";
import { hasStretches, type Stretch, usualStretch, windowOf } from "./window.ts";
import "./ribbon.css";

const stretchChoices = [
  { value: "first", label: "First 8 weeks" },
  { value: "last", label: "Last 8 weeks" },
  { value: "all", label: "All" },
] as const;
const axisChoices = [
  { value: "longest", label: "Longest across" },
  { value: "narrowest", label: "Narrowest across" },
] as const;

/** A person's stoma on one shared time axis: size, openings, changes and leaks, with surgery as origin. */
export function Ribbon({
  stoma,
  healing,
  letters,
  nowMs,
}: {
  stoma: StomaStory;
  healing: Healing | null;
  letters: ReadonlyMap<string, string>;
  nowMs: number;
}) {
  const { protocol, clinic } = useBench();
  const zone = clinic.details.timeZone;
  const { ref, width, text } = useDrawing<HTMLDivElement>();
  const [axis, setAxis] = useState<Axis>(() => tellingAxis(stoma));
  const facts = useMemo(
    () => ribbonFacts(stoma, healing, axis, { protocol, zone, nowMs }),
    [stoma, healing, axis, protocol, zone, nowMs],
  );
  const [chosen, setStretch] = useState<Stretch | null>(null);
  const window = windowOf(chosen ?? usualStretch(facts.nowDay), facts.nowDay);
  const layout = ribbonLayout(facts, window, width, text);
  const parts = { facts, window, layout };
  return (
    <figure className="ribbon">
      <div className="ribbon-choices">
        {hasStretches(facts.nowDay) && (
          <Choice
            label="Show"
            value={chosen ?? usualStretch(facts.nowDay)}
            onChange={setStretch}
            choices={stretchChoices}
          />
        )}
        {facts.twoWays && <Choice label="Size" value={axis} onChange={setAxis} choices={axisChoices} />}
      </div>
      <div ref={ref}>
        {width > 0 && (
          <svg width={layout.width} height={layout.height} role="img" aria-label={ribbonWords(facts, window)}>
            <TimeAxis {...parts} />
            <TodayLine facts={facts} layout={layout} />
            <SizeRow {...parts} letters={letters} />
            <OpeningLine {...parts} />
            <FitsUntilMark {...parts} fits={healing?.fitsUntilDay ?? null} />
            <EventRow {...parts} leaksWindowDays={protocol.unplannedWindowDays} />
          </svg>
        )}
      </div>
      <figcaption className="note">{ribbonCaption(facts)}</figcaption>
      <RibbonTable stoma={stoma} healing={healing} facts={facts} />
    </figure>
  );
}
