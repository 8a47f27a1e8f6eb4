import type { ExposedSkin } from "../../../../domain/exposed/index.ts";
import type { Range } from "./fit.ts";

/** "2.0 mm", "1.5 to 5.3 mm": figures that round to the same are given once. */
export function rangeMm({ min, max }: Range): string {
  const [low, high] = [oneDecimal(min), oneDecimal(max)];
  return low === high ? `${low} mm` : `${low} to ${high} mm`;
}

/** One decimal with a true minus sign; never "−0.0". */
export function oneDecimal(value: number): string {
  return (Math.round(value * 10) / 10 + 0).toFixed(1).replace("-", "−");
}

/** "364 mm²" */
export function areaWords(mm2: number): string {
  return `${Math.round(mm2)} mm²`;
}

/** Three neighbouring hours hold a quarter of an even ring; from this share on, they are where the skin lies. */
const unevenShare = 0.3;
const hoursTogether = 3;

/** Where most of the bare skin lies, or that it lies all round. */
export type BareSkin =
  | { where: "nowhere" }
  | { where: "allRound"; totalMm2: number }
  | { where: "hours"; fromHour: number; toHour: number; areaMm2: number; totalMm2: number };

export function whereBare({
  exposedSkinMm2,
  byClockHour,
}: Pick<ExposedSkin, "exposedSkinMm2" | "byClockHour">): BareSkin {
  if (exposedSkinMm2 < 0.5) return { where: "nowhere" };
  const area = (hour: number) => byClockHour.find((one) => one.hour === onFace(hour))?.areaMm2 ?? 0;
  let best = { middle: 12, areaMm2: -1 };
  for (let middle = 1; middle <= 12; middle += 1) {
    const areaMm2 = area(middle - 1) + area(middle) + area(middle + 1);
    // Of equal stretches the one round the barest hour.
    const isMore = areaMm2 > best.areaMm2 || (areaMm2 === best.areaMm2 && area(middle) > area(best.middle));
    if (isMore) best = { middle, areaMm2 };
  }
  if (best.areaMm2 < unevenShare * exposedSkinMm2) return { where: "allRound", totalMm2: exposedSkinMm2 };
  return {
    where: "hours",
    fromHour: onFace(best.middle - 1),
    toHour: onFace(best.middle - 2 + hoursTogether),
    areaMm2: best.areaMm2,
    totalMm2: exposedSkinMm2,
  };
}

function onFace(hour: number): number {
  return ((hour + 11) % 12) + 1;
}

/** The hour with the widest gap; null where the opening reaches nowhere. */
export function widestHour({ byClockHour }: Pick<ExposedSkin, "byClockHour">): number | null {
  let widest: { hour: number; gapMm: number } | null = null;
  for (const { hour, maxGapMm } of byClockHour) {
    if (maxGapMm === null || (widest && maxGapMm <= widest.gapMm)) continue;
    widest = { hour, gapMm: maxGapMm };
  }
  return widest?.hour ?? null;
}
