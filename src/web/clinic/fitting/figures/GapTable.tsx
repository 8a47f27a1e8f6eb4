import type { PlainDate } from "../../../../domain/calendar.ts";
import type { OpeningFigures } from "./fit.ts";
import { shortVerdict, type Verdict } from "./verdict.ts";
import { areaWords, rangeMm } from "./words.ts";

interface Column {
  figures: OpeningFigures | null;
  verdict: Verdict | null;
}

/** Gap each side and hole across, in that order, for both openings: never one without the other. */
export function GapTable({
  inUse,
  inUseSince,
  proposed,
  surgeryKnown,
  today,
}: {
  inUse: Column | null;
  /** "since day 13" */
  inUseSince: string;
  proposed: Column;
  surgeryKnown: boolean;
  today: PlainDate;
}) {
  const columns = [inUse, proposed].filter((column) => column !== null);
  const row = (name: string, cell: (figures: OpeningFigures) => string) => (
    <tr>
      <th scope="row">{name}</th>
      {columns.map((column) => (
        <td key={column === proposed ? "proposed" : "inUse"}>
          {column.figures ? cell(column.figures) : "–"}
        </td>
      ))}
    </tr>
  );
  return (
    <table className="fit-table">
      <thead>
        <tr>
          <td />
          {inUse && <th scope="col">In use {inUseSince}</th>}
          <th scope="col">Proposed</th>
        </tr>
      </thead>
      <tbody>
        {row("Gap each side", ({ gapEachSideMm }) => rangeMm(gapEachSideMm))}
        {row("Hole across", ({ holeAcrossMm }) => rangeMm(holeAcrossMm))}
        {row("Exposed skin", ({ exposed }) => areaWords(exposed.exposedSkinMm2))}
        <tr>
          <th scope="row">Fits until</th>
          {columns.map((column) => (
            <td key={column === proposed ? "proposed" : "inUse"}>
              {shortVerdict(column.verdict, surgeryKnown, today, column === proposed)}
            </td>
          ))}
        </tr>
      </tbody>
    </table>
  );
}
