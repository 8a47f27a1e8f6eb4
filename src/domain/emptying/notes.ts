import { type Note, note } from "../note.ts";
import type { Protocol } from "../protocol/index.ts";
import { courseOf } from "./course.ts";
import type { Reached } from "./emptying.ts";
import type { OutputModel } from "./model.ts";

/** What the figures rest on: the log, and how much is still what is supposed of such a stoma. */
export function basisOf(model: OutputModel): Note[] {
  const { fills, coveredHours } = model.log;
  const days = coveredHours / 24;
  const judged = fills.filter(({ isJudged }) => isJudged).length;
  const logged = note(
    "logged",
    `${fills.length} ${fills.length === 1 ? "emptying tells" : "emptyings tell"} what came in ${days.toFixed(1)} days; ${judged} judged by fullness, ${fills.length - judged} measured.`,
    { fills: fills.length, days, judged },
  );
  return model.known ? [logged, sharedWithBelief(model, model.known)] : [logged];
}

/** Nine tenths less one tenth of a normal, in standard deviations. */
const tenthsApart = 2.5631;

/** By how much the log has shrunk what was not known of the day's output, on the scale of its logarithm. */
function sharedWithBelief(
  { before }: OutputModel,
  { posterior, days }: NonNullable<OutputModel["known"]>,
): Note {
  const { lower, upper } = courseOf(posterior, days).dailyBandMl;
  const left = Math.log(upper / lower) / tenthsApart / Math.log(before.dailyMl.factor);
  const personShare = Math.min(1, Math.max(0, 1 - left ** 2));
  const percent = Math.round(personShare * 100);
  return note(
    "beliefShare",
    `Of what is known about the day’s output, about ${percent} % comes from the log and ${100 - percent} % from what is supposed of such a stoma (about ${Math.round(before.dailyMl.middle)} mL a day).`,
    { personShare, supposedDailyMl: before.dailyMl.middle },
  );
}

/** What the reader must know beside the figures. */
export function notesOn(model: OutputModel, reachesHalfAt: Reached | null, protocol: Protocol): Note[] {
  const { coveredHours } = model.log;
  return [
    ...(model.known ? fewDays(coveredHours / 24, protocol) : [tooShort(coveredHours, protocol)]),
    ...leftOut(model, protocol),
    ...(reachesHalfAt && reachesHalfAt.p90 === null ? [beyondHorizon(protocol)] : []),
    ...(model.known ? [emptyBySight()] : []),
  ];
}

function tooShort(coveredHours: number, { outputLeastHours }: Protocol): Note {
  return note(
    "logTooShort",
    `The log tells the output of ${Math.floor(coveredHours)} hours; from ${outputLeastHours} hours on, a forecast is given.`,
    { coveredHours, outputLeastHours },
  );
}

function fewDays(days: number, { outputFewDays }: Protocol): Note[] {
  if (days >= outputFewDays) return [];
  return [
    note(
      "fewDays",
      `Only ${days.toFixed(1)} days of log: the bands are wide, and rest in part on what is usual for such a stoma.`,
      { days, outputFewDays },
    ),
  ];
}

function leftOut({ log }: OutputModel, protocol: Protocol): Note[] {
  const { noVolume, gas, gap, tooLong } = log.leftOut;
  const said: [number, string, string][] = [
    [noVolume, "withoutVolume", "told neither fullness nor volume"],
    [gas, "gasInPouch", "came from a pouch that held gas as well, so that its fullness tells no volume"],
    [gap, "afterGap", "followed a gap in the log"],
    [
      tooLong,
      "missedEmptying",
      `came so long after the one before (over ${protocol.longestFillHours} hours; colostomy ${protocol.longestFillColostomyHours}) that one was probably not logged`,
    ],
  ];
  return said.flatMap(([count, code, why]) =>
    count === 0
      ? []
      : [
          note(code, `${count} ${count === 1 ? "emptying" : "emptyings"} ${why}: missing, not zero.`, {
            count,
          }),
        ],
  );
}

function beyondHorizon({ outputHorizonHours }: Protocol): Note {
  return note(
    "beyondHorizon",
    `No time is named more than ${outputHorizonHours} hours after the last emptying.`,
    { outputHorizonHours },
  );
}

/** @source gas strains the seal as well (common practice, no source) */
function emptyBySight(): Note {
  return note(
    "emptyBySight",
    "A forecast, not a measurement: empty when the pouch is a third full, or swollen with gas, whatever the clock says.",
  );
}
