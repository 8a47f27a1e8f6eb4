import { centroidMm, moved, outlineOf } from "../../../../domain/outline/index.ts";
import { type SkinArea, skinAreas } from "../../../../domain/skin/index.ts";
import { dateOf, type PlainDate, type RecordedShape, type SkinSign } from "../../../../record/entry/index.ts";
import { type StomaStory, systemOn } from "../../../../record/story/index.ts";

/** One look at the skin, with what was worn at the time. */
export interface SkinLook {
  entryId: string;
  on: PlainDate;
  /** By what was seen; empty where nothing was found. */
  areas: (SkinArea & { what: SkinSign })[];
  /** Skin that the opening of the time left bare, mm²; null where none is on record or nothing was placed. */
  bareSkinMm2: number | null;
}

/** Every look at the skin, oldest first, and every sign that was ever seen in the order in which it first was. */
export interface SkinFacts {
  looks: SkinLook[];
  signs: SkinSign[];
}

export function skinFacts(stoma: StomaStory): SkinFacts {
  const looks = stoma.skin.map(({ entry }): SkinLook => {
    const on = dateOf(entry.at);
    const { findings, about } = entry.body;
    const base = about ?? stoma.readings.filter((reading) => reading.on <= on).at(-1)?.shape;
    if (!base) return { entryId: entry.id, on, areas: [], bareSkinMm2: null };
    const { byWhat, bareSkinMm2 } = skinAreas({ stoma: base, findings, ...wornOn(stoma, on, base) });
    return { entryId: entry.id, on, areas: byWhat as SkinLook["areas"], bareSkinMm2 };
  });
  return { looks, signs: [...new Set(looks.flatMap(({ areas }) => areas.map(({ what }) => what)))] };
}

/** The opening and the barrier of that day, the opening laid with its centre on the stoma's. */
function wornOn(stoma: StomaStory, on: PlainDate, base: RecordedShape) {
  const opening = stoma.openings.filter(({ from }) => from <= on).at(-1);
  const acrossMm = systemOn(stoma, on)?.entry.body.system.barrierAcrossMm;
  return {
    ...(opening ? { opening: { outline: laidOn(opening.shape, base) } } : {}),
    ...(acrossMm ? { barrier: { shape: "round" as const, diameterMm: acrossMm } } : {}),
  };
}

function laidOn(opening: RecordedShape, base: RecordedShape) {
  const hole = outlineOf(opening);
  const [fromX, fromY] = centroidMm(hole);
  const [toX, toY] = centroidMm(outlineOf(base));
  return moved(hole, [toX - fromX, toY - fromY]);
}

/** The sentence that decides: the last look, and whether each sign grew or shrank since the look before. */
export function skinWords({ looks }: SkinFacts, words: Record<SkinSign, string>): string[] {
  const last = looks.at(-1);
  if (!last) return [];
  if (last.areas.length === 0) return ["At the last look nothing was found."];
  const before = looks.at(-2);
  return last.areas.map(({ what, areaMm2, underBarrierMm2, bareMm2 }) => {
    const sign = words[what];
    const name = `${sign.charAt(0).toUpperCase()}${sign.slice(1)}`;
    const where =
      bareMm2 === null || underBarrierMm2 === null
        ? ""
        : `, ${area(bareMm2)} of it where the opening leaves skin bare and ${area(underBarrierMm2)} under the barrier`;
    const was = before?.areas.find((other) => other.what === what)?.areaMm2;
    const since = !before
      ? ""
      : was === undefined
        ? "; not seen at the look before"
        : `; ${area(was)} at the look before`;
    return `${name}: ${area(areaMm2)}${where}${since}.`;
  });
}

/** "120 mm²": what is drawn by hand is no more exact. */
export function area(mm2: number): string {
  return `${mm2 < 10 ? mm2.toFixed(1) : Math.round(mm2 / 5) * 5} mm²`;
}
