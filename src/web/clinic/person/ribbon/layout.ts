import { type Scale, scale, ticks } from "../../../shared/chart/index.ts";
import type { RibbonFacts } from "./facts.ts";
import type { Window } from "./window.ts";

/** Where things stand on the ribbon, in pixels. */
export interface Layout {
  width: number;
  height: number;
  narrow: boolean;
  /** Multiplies every size that goes with text. */
  text: number;
  left: number;
  right: number;
  /** Top of the area in which time runs. */
  top: number;
  bottom: number;
  x: Scale;
  y: Scale;
  sizeTicks: number[];
  /** Top and bottom of the row of sizes. */
  size: readonly [number, number];
  /** Middle of the rows of changes and of leaks. */
  changes: number;
  leaks: number;
}

const narrowBelowPx = 560;

export function ribbonLayout(facts: RibbonFacts, window: Window, width: number, text: number): Layout {
  const narrow = width < narrowBelowPx * text;
  const px = (size: number) => size * text;
  const left = px(narrow ? 30 : 96);
  const right = width - px(narrow ? 16 : 22);
  const top = px(narrow ? 34 : 30);
  const size = [top + px(narrow ? 30 : 18), top + px(narrow ? 248 : 236)] as const;
  const changes = size[1] + px(narrow ? 56 : 46);
  const leaks = changes + px(narrow ? 24 : 21);
  const bottom = leaks + px(18);
  const extent = sizeExtent(facts, window);
  return {
    width,
    height: bottom + px(2),
    narrow,
    text,
    left,
    right,
    top,
    bottom,
    x: scale([window.fromDay, window.toDay], [left, right]),
    y: scale(extent, [size[1], size[0]]),
    sizeTicks: ticks(extent, 5),
    size,
    changes,
    leaks,
  };
}

/** Smallest and largest size that is to be seen, with a little air. */
function sizeExtent(facts: RibbonFacts, { fromDay, toDay }: Window): readonly [number, number] {
  const inside = (day: number) => day >= fromDay && day <= toDay;
  const sizes = [
    ...facts.readings.flatMap(({ day, mm, stepMm }) => (inside(day) ? [mm, mm - (stepMm ?? 0)] : [])),
    ...facts.openings.flatMap((opening) =>
      opening.fromDay <= toDay && (opening.toDay ?? facts.nowDay) >= fromDay ? [opening.mm] : [],
    ),
    ...(facts.forecast ?? []).flatMap(({ day, lower80, upper80 }) => (inside(day) ? [lower80, upper80] : [])),
  ];
  if (sizes.length === 0) return [20, 40];
  const [low, high] = [Math.min(...sizes), Math.max(...sizes)];
  const air = Math.max(1.5, (high - low) * 0.08);
  return [Math.max(0, low - air), high + air * 1.6];
}
