import { addDays, type PlainDate } from "../../../../domain/calendar.ts";
import { longDay } from "../../../shared/words/index.ts";
import type { Outlook } from "./useForecast.ts";
import { dayWords, fullDayWords, type Verdict } from "./verdict.ts";

/** The sentence that decides: how long the proposed opening fits, how sure that is, and when to measure again. */
export function VerdictPart({
  outlook,
  verdict,
  waiting,
  today,
}: {
  outlook: Outlook | null;
  verdict: Verdict | null;
  waiting: boolean;
  today: PlainDate;
}) {
  return (
    <section
      className="fit-verdict"
      aria-label="How long the proposed opening fits"
      aria-live="polite"
      aria-busy={waiting}
    >
      {outlook && verdict ? (
        <>
          <p className="lead">
            <Lead verdict={verdict} surgeryKnown={outlook.surgeryKnown} today={today} />
          </p>
          <p className="note">
            {verdict.kind === "unknown" ? verdict.why.join(" ") : verdict.rangeWords}{" "}
            {againWords(outlook, today)} The nurse decides.
          </p>
        </>
      ) : (
        <p className="lead">
          {waiting ? "Working out how long it fits…" : "Give a size, and the opening is proposed."}
        </p>
      )}
    </section>
  );
}

function Lead({
  verdict,
  surgeryKnown,
  today,
}: {
  verdict: Verdict;
  surgeryKnown: boolean;
  today: PlainDate;
}) {
  if (verdict.kind === "unknown") return <>How long the proposed opening fits cannot be said yet.</>;
  const words = dayWords(verdict.day, verdict.on, surgeryKnown, today);
  const date = surgeryKnown ? `, ${longDay(verdict.on)}` : "";
  if (verdict.kind === "beyond" && verdict.earliest) {
    const { day, on } = verdict.earliest;
    return (
      <>
        The proposed opening most likely keeps fitting, but{" "}
        <b>the early limit is {fullDayWords(day, on, surgeryKnown)}</b>.
      </>
    );
  }
  if (verdict.kind === "beyond") {
    return (
      <>
        The proposed opening <b>fits beyond {words}</b>, as far as the forecast reaches.
      </>
    );
  }
  if (verdict.passed) {
    return (
      <>
        By the healing curve the proposed opening <b>does not fit today</b>: curve and reading disagree. Look
        at the readings before cutting.
      </>
    );
  }
  return (
    <>
      The proposed opening <b>fits until {words}</b>
      {date}.
    </>
  );
}

function againWords({ measureAgainOnDay, clockStartOn, surgeryKnown }: Outlook, today: PlainDate): string {
  const day = Math.floor(measureAgainOnDay);
  const on = addDays(clockStartOn, day);
  const words = fullDayWords(day, on, surgeryKnown);
  if (on < today) return `Measuring again was due by ${words}.`;
  return `Measure again by ${words}, whatever this says.`;
}
