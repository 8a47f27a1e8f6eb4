import type { PlainDate } from "../../../domain/calendar.ts";
import type { AuditLine } from "../../../record/audit/line.ts";
import { Button, EmptyNote, ErrorNote, LoadingNote } from "../../shared/ui/index.ts";
import { dayIn, longDay, plainDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { LineSaid, type NameOf } from "./LineSaid.tsx";
import { runsOf } from "./runs.ts";
import { type AuditFilter, useAudit, useNamesOf } from "./useAudit.ts";

/** The lines by day, as sentences with names put to their ids. */
export function Lines({
  filter,
  nameOfAccount,
}: {
  filter: AuditFilter;
  nameOfAccount: (accountId: string) => string | undefined;
}) {
  const zone = useBench().clinic.details.timeZone;
  const audit = useAudit(filter);
  const lines = audit.data?.pages.flatMap((page) => page.lines) ?? [];
  const names = useNamesOf(lines.flatMap(peopleIn));
  const nameOf: NameOf = ({ kind, id }) => (kind === "account" ? nameOfAccount(id) : names.data?.get(id));

  if (audit.isError && lines.length === 0) {
    return <ErrorNote error={audit.error} retry={() => audit.refetch()} />;
  }
  if (!audit.data) return <LoadingNote what="the lines" />;
  return (
    <>
      {lines.length === 0 && <EmptyNote>No such line was written.</EmptyNote>}
      <ol className="audit-days">
        {byDay(lines, zone).map(({ on, ofDay }) => (
          <Day key={on} on={on} lines={ofDay} nameOf={nameOf} />
        ))}
      </ol>
      <ErrorNote error={audit.isFetchNextPageError && audit.error} />
      {audit.hasNextPage && (
        <p className="formend">
          <Button busy={audit.isFetchingNextPage && "Fetching…"} onClick={() => audit.fetchNextPage()}>
            Show older lines
          </Button>
        </p>
      )}
    </>
  );
}

function peopleIn({ objects }: AuditLine): string[] {
  return objects.filter(({ kind }) => kind === "person").map(({ id }) => id);
}

interface DayOfLines {
  on: PlainDate;
  ofDay: AuditLine[];
}

/** The lines in their order, cut where the date in the clinic changes. */
function byDay(lines: readonly AuditLine[], zone: string): DayOfLines[] {
  const days: DayOfLines[] = [];
  for (const line of lines) {
    const on = dayIn(zone, line.atMs);
    const last = days.at(-1);
    if (last?.on === on) last.ofDay.push(line);
    else days.push({ on, ofDay: [line] });
  }
  return days;
}

function Day({ on, lines, nameOf }: { on: PlainDate; lines: readonly AuditLine[]; nameOf: NameOf }) {
  const { today } = useBench();
  const sameYear = on.slice(0, 4) === today.slice(0, 4);
  return (
    <li className="audit-day">
      <h2>{sameYear ? longDay(on) : plainDay(on, today)}</h2>
      <ol>
        {runsOf(lines).map((run) => (
          <LineSaid key={run.line.seq} run={run} nameOf={nameOf} />
        ))}
      </ol>
    </li>
  );
}
