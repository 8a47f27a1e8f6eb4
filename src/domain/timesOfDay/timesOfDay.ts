/** Times of day as directions on a 24-hour clock: what is usual, and whether anything is. */
export interface TimesOfDay {
  n: number;
  /** Mean direction, 0 to below 24 hours; null without times, or where they cancel out. */
  meanHour: number | null;
  /** 0: spread evenly or cancelling out, 1: all at one time. Null without times. */
  resultantLength: number | null;
  /** Circular standard deviation; null without times, or where they cancel out. */
  sdHours: number | null;
  /** Chance of times so close together or closer if no time of day were preferred (Rayleigh's test). */
  rayleighP: number | null;
}

/** Shorter than this, the resultant is rounding, and has no direction. */
const noDirection = 1e-12;
/** From here on the correction of Rayleigh's p for few times is left out. */
const manyTimes = 50;

/**
 * @param hours times of day; any number, taken round the clock
 * @source Fisher, Statistical Analysis of Circular Data (1993), 2.3 and 4.3; p after Mardia & Jupp, Directional
 * Statistics (2000), 6.3, with the correction to n⁻² below 50 times
 */
export function timesOfDay(hours: readonly number[]): TimesOfDay {
  const n = hours.length;
  if (n === 0) return { n, meanHour: null, resultantLength: null, sdHours: null, rayleighP: null };
  const angles = hours.map((hour) => (hour / 24) * 2 * Math.PI);
  const cosine = angles.reduce((sum, angle) => sum + Math.cos(angle), 0) / n;
  const sine = angles.reduce((sum, angle) => sum + Math.sin(angle), 0) / n;
  const resultantLength = Math.min(1, Math.hypot(cosine, sine));
  const hasDirection = resultantLength > noDirection;
  return {
    n,
    meanHour: hasDirection ? hourOf(Math.atan2(sine, cosine)) : null,
    resultantLength,
    sdHours: hasDirection ? (Math.sqrt(-2 * Math.log(resultantLength)) * 24) / (2 * Math.PI) : null,
    rayleighP: rayleighP(n, resultantLength),
  };
}

function hourOf(angle: number): number {
  const hour = ((angle / (2 * Math.PI)) * 24 + 24) % 24;
  return hour === 24 ? 0 : hour;
}

function rayleighP(n: number, resultantLength: number): number {
  const z = n * resultantLength ** 2;
  const correction =
    n < manyTimes
      ? 1 + (2 * z - z ** 2) / (4 * n) - (24 * z - 132 * z ** 2 + 76 * z ** 3 - 9 * z ** 4) / (288 * n ** 2)
      : 1;
  return Math.min(1, Math.max(0, Math.exp(-z) * correction));
}
