import { addDays, calendarDaysBetween, type PlainDate } from "../calendar.ts";
import { type Note, note } from "../note.ts";
import type { Protocol } from "../protocol/index.ts";
import { balanceMl, isWhole, outputMl, urineMl } from "./figures.ts";
import type { FluidDay, FluidInput } from "./fluid.ts";
import { byLevel, type FluidReason, reasonBuilder } from "./reason.ts";
import { weightReasons } from "./weight.ts";

type Build = ReturnType<typeof reasonBuilder>;

/** Every reason that one day gives, most urgent first, and what a hospital stay mutes. */
export function reasonsOn(
  days: readonly FluidDay[],
  at: number,
  input: FluidInput,
  protocol: Protocol,
): { reasons: FluidReason[]; muted: Note[] } {
  const build = reasonBuilder(input, protocol);
  const day = days[at]!;
  const urine = urineReason(day, input, protocol, build);
  const weight = weightReasons(days, at, protocol, build);
  const output = outputReason(days, at, input, protocol, build);
  const drying = dryingReason(day, input, protocol, build, [...urine, ...weight]);
  const mutes = input.setting === "hospital" && isOrdinaryInHospital(output);
  const reasons = [
    ...(output && !mutes ? [output] : []),
    ...drying,
    ...urine,
    ...weight,
    ...emptyingsReason(day, input, protocol, build),
    ...balanceReason(days, at, input, protocol, build),
  ].sort(byLevel);
  return { reasons, muted: mutes ? [usualInHospital(output!)] : [] };
}

/** The highest limit that the output reached. A part day reaches a limit as well as a whole one. */
function outputReason(
  days: readonly FluidDay[],
  at: number,
  input: FluidInput,
  protocol: Protocol,
  build: Build,
): FluidReason | null {
  const { date } = days[at]!;
  const ml = outputMl(days[at]!, input.stomaType);
  if (ml === null) return null;
  const came = `${Math.round(ml)} mL came out of the stoma`;
  const { outputUrgentMl, outputVeryHighMl, outputHighMl, outputWatchMl, outputHighDays } = protocol;
  if (ml > outputUrgentMl)
    return build("outputUrgent", "now", ml, "outputUrgentMl", `${came}: over ${outputUrgentMl}.`);
  if (ml >= outputVeryHighMl)
    return build(
      "outputVeryHigh",
      "sameDay",
      ml,
      "outputVeryHighMl",
      `${came}: ${outputVeryHighMl} or more.`,
    );
  if (ml >= outputHighMl) {
    const running = daysRunning(days, at, (day) => (outputMl(day, input.stomaType) ?? 0) >= outputHighMl);
    return running >= outputHighDays
      ? build(
          "outputHighForDays",
          "sameDay",
          running,
          "outputHighDays",
          `${came}: ${outputHighMl} or more on ${running} days running.`,
        )
      : build("outputHigh", "nextContact", ml, "outputHighMl", `${came}: ${outputHighMl} or more.`);
  }
  if (ml >= outputWatchMl && isNew(date, input, protocol))
    return build(
      "outputWatch",
      "nextContact",
      ml,
      "outputWatchMl",
      `${came}, of a new stoma: ${outputWatchMl} or more.`,
    );
  return null;
}

/** A new stoma's first output is watery and much; in hospital the ward sees to it. */
function isOrdinaryInHospital(output: FluidReason | null): boolean {
  return output !== null && ["outputWatch", "outputHigh"].includes(output.rule);
}

/** @source Baker & Greening, clinical skills article on high-output stomas (2009): up to 2000 mL at first */
function usualInHospital({ rule, value, limit }: FluidReason): Note {
  return note(
    "usualInHospital",
    `In hospital a volume below the very high ones raises nothing by itself (it would at home: ${rule}).`,
    { rule, value, limit },
  );
}

/** High output with little urine or lost weight: the two together do not wait. */
function dryingReason(
  day: FluidDay,
  { stomaType }: FluidInput,
  { outputHighMl }: Protocol,
  build: Build,
  signs: readonly FluidReason[],
): FluidReason[] {
  const ml = outputMl(day, stomaType);
  const sign = signs[0];
  if (ml === null || ml < outputHighMl || !sign) return [];
  return [
    build(
      "outputHighAndDrying",
      "sameDay",
      ml,
      "outputHighMl",
      `${Math.round(ml)} mL came out of the stoma, and: ${sign.text}`,
    ),
  ];
}

/** Only a whole day can show that little urine came. */
function urineReason(
  day: FluidDay,
  { stomaType }: FluidInput,
  protocol: Protocol,
  build: Build,
): FluidReason[] {
  const ml = urineMl(day, stomaType);
  if (ml === null || !isWhole(day, protocol)) return [];
  const passed = `${Math.round(ml)} mL of urine`;
  const { urineNoneMl, urineVeryLowMl, urineLowMl } = protocol;
  if (ml < urineNoneMl)
    return [build("urineNone", "now", ml, "urineNoneMl", `${passed}: below ${urineNoneMl}.`)];
  if (ml < urineVeryLowMl)
    return [build("urineVeryLow", "sameDay", ml, "urineVeryLowMl", `${passed}: below ${urineVeryLowMl}.`)];
  if (ml < urineLowMl)
    return [build("urineLow", "nextContact", ml, "urineLowMl", `${passed}: below ${urineLowMl}.`)];
  return [];
}

/** Counts where the volume is not known. */
function emptyingsReason(
  { stomaMl, halfFullEmpties }: FluidDay,
  { stomaType }: FluidInput,
  { manyHalfFullEmpties }: Protocol,
  build: Build,
): FluidReason[] {
  if (stomaType === "urostomy" || stomaMl !== undefined || halfFullEmpties === undefined) return [];
  if (halfFullEmpties <= manyHalfFullEmpties) return [];
  return [
    build(
      "manyHalfFullEmpties",
      "sameDay",
      halfFullEmpties,
      "manyHalfFullEmpties",
      `The pouch was emptied half full ${halfFullEmpties} times in a day: more than ${manyHalfFullEmpties}.`,
    ),
  ];
}

function balanceReason(
  days: readonly FluidDay[],
  at: number,
  { stomaType }: FluidInput,
  protocol: Protocol,
  build: Build,
): FluidReason[] {
  const running = daysRunning(days, at, (day) => (balanceMl(day, stomaType, protocol) ?? 0) < 0);
  if (running < protocol.negativeBalanceDays) return [];
  return [
    build(
      "negativeBalance",
      "nextContact",
      running,
      "negativeBalanceDays",
      `Less was drunk than lost on ${running} days running (food is not counted).`,
    ),
  ];
}

/** How many days in a row, up to this one, are so; a day without an entry ends the row. */
function daysRunning(days: readonly FluidDay[], at: number, isSo: (day: FluidDay) => boolean): number {
  let count = 0;
  for (let i = at; i >= 0 && isSo(days[i]!); i--) {
    if (i < at && days[i]!.date !== addDays(days[i + 1]!.date, -1)) break;
    count += 1;
  }
  return count;
}

function isNew(date: PlainDate, { surgeryOn }: FluidInput, { newStomaDays }: Protocol): boolean {
  return surgeryOn === undefined || calendarDaysBetween(surgeryOn, date) <= newStomaDays;
}
