import { counted } from "./numbers.ts";

/** "45 seconds", "4 minutes", "1 minute 5 seconds", "2 hours 10 minutes": the two largest parts that count. */
export function duration(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds));
  const parts = [
    { value: Math.floor(whole / 3600), one: "hour" },
    { value: Math.floor((whole % 3600) / 60), one: "minute" },
    { value: whole % 60, one: "second" },
  ];
  const first = parts.findIndex(({ value }) => value > 0);
  if (first === -1) return "no time";
  return parts
    .slice(first, first + 2)
    .filter(({ value }) => value > 0)
    .map(({ value, one }) => counted(value, one, `${one}s`))
    .join(" ");
}

/** A time gone by, for whom minutes are exact enough: "just now", "2 hours ago". */
export function agoWords(ms: number): string {
  return ms < 60_000 ? "just now" : `${about(ms)} ago`;
}

/** "less than a minute", "5 minutes", "3 hours", "7 days": as exactly as it matters. */
export function about(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 1) return "less than a minute";
  if (minutes < 60) return counted(minutes, "minute", "minutes");
  const hours = Math.round(minutes / 60);
  if (hours < 48) return counted(hours, "hour", "hours");
  return counted(Math.round(hours / 24), "day", "days");
}
