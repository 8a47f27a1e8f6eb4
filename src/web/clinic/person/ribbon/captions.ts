import { counted } from "../../../shared/words/index.ts";
import type { RibbonFacts } from "./facts.ts";
import type { Window } from "./window.ts";

/** How to read the marks that are there. */
export function ribbonCaption(facts: RibbonFacts): string {
  const steps = [
    ...new Set(facts.readings.flatMap(({ stepMm }) => (stepMm === null ? [] : [stepMm.toFixed(1)]))),
  ];
  return [
    facts.readings.length === 0 ? "Not measured yet: the size and its curve will stand here." : "",
    facts.forecast ? "Line: fitted size; shading: 80 % of likely sizes." : "",
    steps.length > 0
      ? `Upright bar: a guide reading, as tall as its ring step (${steps.join(" or ")} mm).`
      : "",
    facts.readings.some(({ stepMm }) => stepMm === null) ? "Dot: a tracing or a typed size." : "",
    facts.openings.length > 0 ? "Dashed step: the opening in use." : "",
    facts.changes.some(({ early }) => early) ? "Bar on top of a change: earlier than planned." : "",
    facts.changes.some(({ barrier }) => !barrier) ? "Short stroke: not the barrier." : "",
  ]
    .filter(Boolean)
    .join(" ");
}

/** What the drawing holds, for those who do not see it; the table under it has the figures. */
export function ribbonWords(facts: RibbonFacts, { fromDay, toDay }: Window): string {
  const inside = ({ day }: { day: number }) => day >= fromDay && day <= toDay;
  const leaks = facts.changes.filter((change) => inside(change) && change.leak).length;
  const span = facts.surgeryKnown
    ? `day ${Math.round(fromDay)} to day ${Math.round(toDay)}`
    : "the days shown";
  return (
    `Stoma size, openings, changes and leaks from ${span}: ` +
    `${counted(facts.readings.filter(inside).length, "reading", "readings")}, ` +
    `${counted(facts.changes.filter(inside).length, "change", "changes")}, ${counted(leaks, "leak", "leaks")}.`
  );
}
