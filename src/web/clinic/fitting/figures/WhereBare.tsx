import type { OpeningFigures } from "./fit.ts";
import { areaWords, whereBare } from "./words.ts";

/** Where most of the bare skin lies, by the clock. */
export function WhereBare({ figures, opening }: { figures: OpeningFigures; opening: "in use" | "proposed" }) {
  const bare = whereBare(figures.exposed);
  const leaves = opening === "in use" ? "" : " that the proposed opening leaves";
  if (bare.where === "nowhere") return <p>The opening leaves no skin bare.</p>;
  if (bare.where === "allRound") {
    return (
      <p>
        The bare skin{leaves} lies evenly round the stoma: <b>{areaWords(bare.totalMm2)}</b>.
      </p>
    );
  }
  return (
    <p>
      Most of the bare skin{leaves} lies at{" "}
      <b>
        {bare.fromHour} to {bare.toHour} o’clock, {Math.round(bare.areaMm2)} of {areaWords(bare.totalMm2)}
      </b>
      .
    </p>
  );
}
