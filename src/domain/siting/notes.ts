import { type Note, note } from "../note.ts";
import type { Outline } from "../outline/index.ts";
import { neededPostures } from "./kinds.ts";
import type { Place } from "./place.ts";
import { quadrantWords } from "./quadrant.ts";
import type { Siting } from "./siting.ts";

type Ranked = Place & { rank: number };

/** What must be known beside the places: what they rest on, what they lack, and who decides. */
export function notesOn(map: Siting, candidates: readonly Ranked[], conflict: boolean): Note[] {
  const best = candidates[0];
  return [
    ...map.notes,
    decidesNote,
    ...(map.muscle ? [] : [muscleNote]),
    ...sideNote(map),
    ...posturesNote(map),
    ...(conflict ? [conflictNote(map, best)] : []),
    ...(best ? middleNote(map, best) : []),
    ...candidates.flatMap((candidate) => flatNote(map, candidate)),
    ...(best ? beltNote(map, best) : []),
  ];
}

const decidesNote = note(
  "surgeonDecides",
  "A proposal from the distances that were marked. Your local protocol decides, and the surgeon chooses the place.",
);

const muscleNote = note(
  "muscleNotMarked",
  "No muscle border is marked: these places rest on the landmarks alone. Find the border by head raise.",
);

/** Sources name a side for ileostomy, colostomy and conduit alone. */
function sideNote({ question }: Siting): Note[] {
  const { stomaType, quadrant } = question;
  if (quadrant || (stomaType !== "fistula" && stomaType !== "other")) return [];
  const text =
    "No quadrant is usual for this stoma: it was looked for on the right first. Name the surgeon’s choice.";
  return [note("noUsualQuadrant", text, { stomaType })];
}

/** Postures in which nothing was marked may be unlooked at, or hold nothing: the reader knows which. */
function posturesNote({ rules }: Siting): Note[] {
  const missing = neededPostures.filter((posture) => !rules.some((rule) => rule.posture === posture));
  if (missing.length === 0) return [];
  const postures = missing.join(", ");
  const text = `Nothing is marked for these postures alone: ${postures}. Look in each of them before the place is marked.`;
  return [note("posturesUnmarked", text, { postures })];
}

function conflictNote({ quadrants }: Siting, best: Ranked | undefined): Note {
  const wanted = quadrants[0]!;
  const text = best
    ? `No place in the ${quadrantWords[wanted]} keeps every limit; the best that does lies in the ${quadrantWords[best.quadrant]}. The surgeon decides.`
    : `No place keeps every limit. What conflicts is named, and the least bad places of the ${quadrantWords[wanted]} by the protocol’s order. The surgeon decides.`;
  return note(best ? "notInWantedQuadrant" : "noPlaceKeepsAll", text, {
    wanted,
    found: best?.quadrant ?? null,
  });
}

function middleNote({ protocol, muscle }: Siting, { acrossMuscle }: Ranked): Note[] {
  if (!muscle || acrossMuscle === null) return [];
  const off = Math.abs(acrossMuscle - 0.5);
  if (off <= protocol.siteMidMuscleShare / 2 + 0.005) return [];
  const percent = Math.round(100 * acrossMuscle);
  const text = `No place in the middle of the muscle keeps every limit: the best one lies ${percent} % of the way from its medial to its lateral edge.`;
  return [note("notMidMuscle", text, { acrossMuscle })];
}

function flatNote({ protocol }: Siting, { rank, barrier }: Ranked): Note[] {
  const { flatAcrossMm } = barrier;
  if (flatAcrossMm === null || flatAcrossMm >= protocol.siteFlatAcrossMm) return [];
  const text = `Place ${rank}: even skin only ${Math.round(flatAcrossMm)} mm across; ${protocol.siteFlatAcrossMm} mm are asked for.`;
  return [note("littleFlatSkin", text, { rank, flatAcrossMm, limitMm: protocol.siteFlatAcrossMm })];
}

/** Usually below the belt line; on a large abdomen above it is what is wanted. */
function beltNote({ landmarks, question }: Siting, { at: [x, y] }: Ranked): Note[] {
  if (question.largeAbdomen) return [];
  const belts = landmarks.flatMap(({ kind, shape }) =>
    kind === "beltLine" && "line" in shape ? [shape.line] : [],
  );
  const above = belts.some((line) => {
    const height = levelAt(line, x);
    return height !== null && y > height;
  });
  return above
    ? [
        note(
          "aboveBelt",
          "The best place lies above the belt line; below it is usual, where clothes cover it.",
        ),
      ]
    : [];
}

/** Height of a line that runs across the body, at a place across; null where it does not reach there. */
function levelAt(line: Outline, x: number): number | null {
  for (let at = 1; at < line.length; at += 1) {
    const [[ax, ay], [bx, by]] = [line[at - 1]!, line[at]!];
    if (ax !== bx && Math.min(ax, bx) <= x && x <= Math.max(ax, bx))
      return ay + ((by - ay) * (x - ax)) / (bx - ax);
  }
  return null;
}
