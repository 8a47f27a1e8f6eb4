import { exposedSkin } from "../../domain/exposed/index.ts";
import { type Fault, InputError, refuse } from "../../domain/fault.ts";
import type { Note } from "../../domain/note.ts";
import { openingFor } from "../../domain/opening/index.ts";
import { centroidMm, moved, type Outline, outlineOf } from "../../domain/outline/index.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import type { PlainDate } from "../../record/entry/index.ts";
import { type PersonStory, type Reading, type StomaStory, systemOn } from "../../record/story/index.ts";

/** What is cut for a reading, and what the cut leaves. */
export interface Cut {
  stoma: Outline;
  opening: Outline;
  scissorPath: Outline;
  holeAcrossMm: { min: number; max: number };
  gapEachSideMm: { min: number; max: number };
  /** What the nurse should know about the opening or the barrier it is cut from. */
  notes: Note[];
}

/** The measurement to cut for: one that stands. @throws {InputError} */
export function readingToCut(stoma: StomaStory, person: PersonStory, measuredId: string): Reading {
  const reading = stoma.readings.find(({ entryId }) => entryId === measuredId);
  if (reading) return reading;
  const isOld = person.history.some(({ first, corrections }) =>
    [first, ...corrections].some(({ id, stomaId }) => id === measuredId && stomaId === stoma.stomaId),
  );
  return isOld
    ? refuse("measuredId", "was corrected or taken back", measuredId, "the measurement that stands now")
    : refuse("measuredId", "names no measurement of this stoma", measuredId, "the id of a measurement");
}

/** What makes a barrier the wrong one; anything else the nurse is told and decides. */
const cannotBeCut = ["largerThanMaxOpening", "smallerThanStarterHole"];

/**
 * The opening for a reading, from the system in use that day.
 * @throws {InputError} where that system's barrier does not allow it
 */
export function cutFor(
  stoma: StomaStory,
  reading: Reading,
  clearanceMm: number,
  protocol: Protocol,
  on: PlainDate,
): Cut {
  const system = systemOn(stoma, on)?.entry.body.system;
  const across = system?.barrierAcrossMm;
  const outline = outlineOf(reading.shape);
  const { opening, scissorPath, holeAcrossMm, reasons } = openingFor(
    {
      stoma: { outline },
      clearanceMm,
      barrier: across === undefined ? undefined : { shape: "round", diameterMm: across },
      maxOpeningMm: system?.maxOpeningMm,
      starterHoleMm: system?.starterHoleMm,
    },
    protocol,
  );
  const against = reasons.filter(({ code }) => cannotBeCut.includes(code));
  if (against.length > 0) throw new InputError(against.map(({ text }) => systemFault(text, system?.name)));
  if (!opening || !scissorPath || !holeAcrossMm) {
    return refuse("clearanceMm", "leaves no opening", clearanceMm, "0 mm or more");
  }
  refuseInsideNewer(stoma, reading, scissorPath);
  const gap = exposedSkin({ stoma: { outline }, opening: { outline: scissorPath } });
  const gapEachSideMm = { min: gap.minGapMm, max: gap.maxGapMm };
  return { stoma: outline, opening, scissorPath, holeAcrossMm, gapEachSideMm, notes: reasons };
}

function systemFault(text: string, systemName = "the system in use"): Fault {
  return {
    path: "stomaId",
    problem: `cannot be cut for from this system. ${text}`,
    got: systemName,
    expected: "a system whose barrier allows this opening",
  };
}

/** Cutting from an older measurement is the nurse's choice, but never into the stoma as it was found since. */
function refuseInsideNewer(stoma: StomaStory, reading: Reading, path: Outline): void {
  const newer = stoma.readings.filter(({ on }) => on > reading.on);
  for (const later of newer) {
    const outline = outlineOf(later.shape);
    const [fromX, fromY] = centroidMm(path);
    const [toX, toY] = centroidMm(outline);
    const centred = moved(path, [toX - fromX, toY - fromY]);
    const { minGapMm } = exposedSkin({ stoma: { outline }, opening: { outline: centred } });
    if (minGapMm >= -roundingMm) continue;
    refuse(
      "measuredId",
      "would cut into the stoma as it was measured since",
      reading.on,
      `the reading of ${later.on}`,
    );
  }
}

/** An outline is no more exact than this. */
const roundingMm = 0.01;
