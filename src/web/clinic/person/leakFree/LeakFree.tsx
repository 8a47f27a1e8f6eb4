import { useDeferredValue, useMemo, useState } from "react";
import type { StomaStory } from "../../../../record/story/index.ts";
import { EmptyNote, Select, Sentence } from "../../../shared/ui/index.ts";
import { useBench } from "../../frame/index.tsx";
import { Curve } from "./Curve.tsx";
import { compareSystems, type SystemWear, systemsWorn, systemWear } from "./facts.ts";
import { LeakFreeTable } from "./LeakFreeTable.tsx";
import { comparisonSaid, intervalSaid, medianSaid, planSaid, type Said } from "./words.ts";
import "./leakFree.css";

/** How long the seal holds: the curve, the change interval that follows, and one system beside another. */
export function LeakFree({ stoma, nowMs }: { stoma: StomaStory; nowMs: number }) {
  // The curves take tens of milliseconds: the page is shown before them.
  const shown = useDeferredValue<StomaStory | null>(stoma, null);
  const systems = useMemo(() => systemsWorn(stoma), [stoma]);
  return (
    <section className="leakfree">
      <h2>Leak-free days</h2>
      {systems.length === 0 ? (
        <EmptyNote>
          No change is on record yet. The first one starts a wear; the second ends it, and from then on the
          curve grows.
        </EmptyNote>
      ) : (
        shown && <Systems stoma={shown} systems={systems} nowMs={nowMs} />
      )}
    </section>
  );
}

function Systems({
  stoma,
  systems: [inUse, ...others],
  nowMs,
}: {
  stoma: StomaStory;
  systems: string[];
  nowMs: number;
}) {
  const { protocol } = useBench();
  const [chosen, setChosen] = useState(others[0] ?? "");
  const front = useMemo(
    () => (inUse === undefined ? null : systemWear(stoma, inUse, protocol, nowMs)),
    [stoma, inUse, protocol, nowMs],
  );
  const other = useMemo(
    () => (chosen === "" ? null : systemWear(stoma, chosen, protocol, nowMs)),
    [stoma, chosen, protocol, nowMs],
  );
  const compared = useMemo(
    () =>
      front && other
        ? comparisonSaid(compareSystems(stoma, front.name, other.name, nowMs), [front, other])
        : [],
    [stoma, front, other, nowMs],
  );
  if (!front) return null;
  const said = [intervalSaid(front), planSaid(front), medianSaid(front), ...compared];
  return (
    <div className="leakfree-spread">
      <figure>
        <SystemNames front={front} other={other} others={others} chosen={chosen} onChoose={setChosen} />
        <Curve front={front} other={other} />
        <figcaption className="note">
          Share of barriers that had not leaked, by days worn; shading: 95 % limits. Counted as a leak: past
          the edge or under the barrier. Figures under the axis: barriers worn at least that long.
        </figcaption>
        <LeakFreeTable systems={other ? [front, other] : [front]} />
      </figure>
      <SaidList said={said} />
    </div>
  );
}

function SystemNames({
  front,
  other,
  others,
  chosen,
  onChoose,
}: {
  front: SystemWear;
  other: SystemWear | null;
  others: string[];
  chosen: string;
  onChoose: (name: string) => void;
}) {
  return (
    <div className="leakfree-names">
      <p>
        {other && <b>In use: </b>}
        {front.name}
      </p>
      {others.length > 0 && (
        <Select
          label="Beside it"
          value={chosen}
          onChange={onChoose}
          choices={[{ value: "", label: "nothing" }, ...others.map((name) => ({ value: name, label: name }))]}
        />
      )}
    </div>
  );
}

function SaidList({ said }: { said: Said[] }) {
  return (
    <ol className="leakfree-said">
      {said.map(({ code, text, notes = [] }) => (
        <li key={code}>
          <Sentence text={text} />
          {notes.map((note) => (
            <span className="note" key={note}>
              {note}
            </span>
          ))}
        </li>
      ))}
    </ol>
  );
}
