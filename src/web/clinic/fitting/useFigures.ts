import { useMemo, useRef } from "react";
import type { Protocol } from "../../../domain/protocol/index.ts";
import type { PouchingSystem, RecordedShape } from "../../../record/entry/index.ts";
import type { StomaStory } from "../../../record/story/index.ts";
import { inUseFigures, proposedFit, useForecast } from "./figures/index.ts";
import { cutShape } from "./saving/index.ts";
import { isCutFrom } from "./subject.ts";
import type { OnPlate } from "./useOnPlate.ts";

export type Figures = ReturnType<typeof useFigures>;

/** Both openings against the outline on the plate: at once; how long they fit: a moment later. */
export function useFigures({
  plate: { subject, story },
  stoma,
  clearanceMm,
  system,
  protocol,
  steady,
}: {
  plate: Pick<OnPlate, "subject" | "story">;
  stoma: StomaStory;
  clearanceMm: number | null;
  system: PouchingSystem | null;
  protocol: Protocol;
  /** A handle is in hand: the forecast waits. */
  steady: boolean;
}) {
  const cut = stoma.openings.at(-1) ?? null;
  const inUse = useMemo(() => {
    if (!cut || !subject) return null;
    const asCut = isCutFrom(cut.source.entry.body.measuredId, subject.reading);
    return inUseFigures(subject.outline, { shape: cut.shape, asCut });
  }, [cut, subject]);
  const proposed = useMemo(
    () =>
      subject && clearanceMm !== null ? proposedFit(subject.outline, clearanceMm, system, protocol) : null,
    [subject, clearanceMm, system, protocol],
  );
  const proposedShape = useMemo((): RecordedShape | null => {
    if (!subject || !proposed?.proposed || clearanceMm === null) return null;
    const { outline: opening } = proposed.proposed;
    const from = { stoma: subject.outline, stomaShape: subject.shape, opening, clearanceMm };
    return cutShape("byHand", from, 0, protocol).opening;
  }, [subject, proposed, clearanceMm, protocol]);
  const forecast = useForecast(
    useSteady(story, steady),
    cut?.shape ?? null,
    useSteady(proposedShape, steady),
    protocol,
  );
  return { cut, inUse, proposed, forecast };
}

/** The value as it was before a handle was taken in hand. */
function useSteady<T>(value: T, steady: boolean): T {
  const held = useRef(value);
  if (!steady) held.current = value;
  return held.current;
}
