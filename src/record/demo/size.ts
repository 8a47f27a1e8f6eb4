import type { RecordedShape } from "../entry/index.ts";
import type { DaysAgo, ReadingScenario, SizeScenario } from "./scenario.ts";

const riseOverDays = 7;
const tracedPoints = 72;

/** The longest extent of the base on a day, mm. */
export function trueLengthMm(
  { startMm, finalMm, timeConstantDays, rise }: SizeScenario,
  day: number,
  daysAgo: DaysAgo,
): number {
  const healed = finalMm + (startMm - finalMm) * Math.exp(-day / timeConstantDays);
  const risen = rise ? rise.mm * Math.min(1, Math.max(0, (rise.since - daysAgo) / riseOverDays)) : 0;
  return healed + risen;
}

/** What is written down for a true length: the ring that clears it, or the outline drawn round it. */
export function readShape(
  size: SizeScenario,
  { method, stepMm = 1 }: ReadingScenario,
  lengthMm: number,
): RecordedShape {
  const share = size.widthShare ?? 1;
  if (method === "tracing") return { outline: tracedOutline(size, lengthMm) };
  const ring = (mm: number) => thousandths(Math.ceil(mm / stepMm) * stepMm);
  if (share === 1) return { guide: { shape: "round", diameterMm: ring(lengthMm) } };
  return {
    guide: {
      shape: "oval",
      lengthMm: ring(lengthMm),
      widthMm: ring(lengthMm * share),
      tiltDeg: size.tiltDeg ?? 0,
    },
  };
}

/** A lobed outline: an oval whose radius swells and dips as a hand-drawn one does. */
function tracedOutline({ widthShare = 1, tiltDeg = 0, lobes = 0 }: SizeScenario, lengthMm: number) {
  const tilt = (tiltDeg * Math.PI) / 180;
  return Array.from({ length: tracedPoints }, (_, at): [number, number] => {
    const turn = (at * 2 * Math.PI) / tracedPoints;
    const swell = 1 + lobes * (0.6 * Math.cos(3 * turn + 0.7) + 0.4 * Math.cos(5 * turn + 2.1));
    const along = (lengthMm / 2) * swell * Math.cos(turn);
    const across = (-lengthMm / 2) * widthShare * swell * Math.sin(turn);
    return [
      hundredths(along * Math.sin(tilt) + across * Math.cos(tilt)),
      hundredths(along * Math.cos(tilt) - across * Math.sin(tilt)),
    ];
  });
}

function hundredths(mm: number): number {
  return Math.round(mm * 100) / 100;
}

function thousandths(mm: number): number {
  return Math.round(mm * 1000) / 1000;
}
