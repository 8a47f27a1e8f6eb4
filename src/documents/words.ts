/** A calendar date, YYYY-MM-DD. */
export type IsoDate = string;

const months = "January February March April May June July August September October November December".split(
  " ",
);
const weekdays = "Sun Mon Tue Wed Thu Fri Sat".split(" ");

/** "Wed 25 November 2026". */
export function dayInWords(date: IsoDate): string {
  const day = new Date(`${date}T00:00:00Z`);
  return `${weekdays[day.getUTCDay()]} ${plainDate(date)}`;
}

/** "3 April 1951", without the weekday, as a birth date is said. */
export function plainDate(date: IsoDate): string {
  const [year, month, day] = date.split("-").map(Number);
  return `${day} ${months[month! - 1]} ${year}`;
}

/** Whether a text is a day of the calendar, written YYYY-MM-DD. */
export function isDay(date: IsoDate): boolean {
  const parsed = new Date(`${date}T00:00:00Z`);
  return !Number.isNaN(parsed.getTime()) && parsed.toISOString().slice(0, 10) === date;
}

/** "2.0 mm", or "1.8 to 2.4 mm" where the two differ as printed. */
export function rangeInWords({ min, max }: { min: number; max: number }): string {
  const [low, high] = [min.toFixed(1), max.toFixed(1)];
  return low === high ? `${low} mm` : `${low} to ${high} mm`;
}

/** "day 38 to 55", or "day 38 or later" where the range is open. */
export function rangeOfDays({ lowerDay, upperDay }: { lowerDay: number; upperDay?: number }): string {
  return upperDay === undefined ? `day ${lowerDay} or later` : `day ${lowerDay} to ${upperDay}`;
}
