import { calendarDaysBetween } from "../calendar.ts";
import type { Protocol } from "../protocol/index.ts";
import type { FluidDay } from "./fluid.ts";
import type { FluidReason, reasonBuilder } from "./reason.ts";

/** Scales show tenths; 70 to 66.5 kg is 5 %, whatever the last binary digit says. */
const rounding = 1e-9;

/** Weight lost against the days before. Fluid is lost within days; a share counts from the highest of late. */
export function weightReasons(
  days: readonly FluidDay[],
  at: number,
  protocol: Protocol,
  build: ReturnType<typeof reasonBuilder>,
): FluidReason[] {
  const { date, weightKg } = days[at]!;
  if (weightKg === undefined) return [];
  const highestWithin = (windowDays: number): number =>
    Math.max(
      weightKg,
      ...days
        .slice(0, at)
        .filter((day) => calendarDaysBetween(day.date, date) <= windowDays)
        .flatMap((day) => (day.weightKg === undefined ? [] : [day.weightKg])),
    );
  const lostKg = (windowDays: number) => highestWithin(windowDays) - weightKg + rounding;
  const reasons: FluidReason[] = [];
  if (lostKg(1) >= protocol.weightLossDayKg)
    reasons.push(lost("weightLossDay", "weightLossDayKg", lostKg(1), 1, build));
  if (lostKg(protocol.weightFewDays) >= protocol.weightLossFewDaysKg)
    reasons.push(
      lost(
        "weightLossFewDays",
        "weightLossFewDaysKg",
        lostKg(protocol.weightFewDays),
        protocol.weightFewDays,
        build,
      ),
    );
  const percent = shareLost(highestWithin(protocol.weightBaselineDays), weightKg);
  const key =
    percent >= protocol.weightLossMuchPercent
      ? "weightLossMuchPercent"
      : percent >= protocol.weightLossPercent
        ? "weightLossPercent"
        : null;
  if (key)
    reasons.push(
      build(
        key === "weightLossMuchPercent" ? "weightLossMuch" : "weightLoss",
        key === "weightLossMuchPercent" ? "sameDay" : "nextContact",
        percent,
        key,
        `Weight is ${percent.toFixed(1)} % below the highest of the last ${protocol.weightBaselineDays} days.`,
      ),
    );
  return reasons;
}

function shareLost(fromKg: number, toKg: number): number {
  return fromKg <= 0 ? 0 : ((fromKg - toKg) / fromKg) * 100 + rounding;
}

function lost(
  rule: string,
  key: "weightLossDayKg" | "weightLossFewDaysKg",
  kg: number,
  withinDays: number,
  build: ReturnType<typeof reasonBuilder>,
): FluidReason {
  const span = withinDays === 1 ? "a day" : `${withinDays} days`;
  return build(rule, "nextContact", kg, key, `${kg.toFixed(1)} kg were lost within ${span}.`);
}
