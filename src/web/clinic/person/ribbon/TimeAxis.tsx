import type { PlainDate } from "../../../../domain/calendar.ts";
import { shortDay } from "../../../shared/words/index.ts";
import type { RibbonFacts } from "./facts.ts";
import type { Layout } from "./layout.ts";
import { type AxisTick, axisTicks, type Window } from "./window.ts";

/** Days of recovery above calendar dates, a line each, and today as a line through everything. */
export function TimeAxis({ facts, window, layout }: { facts: RibbonFacts; window: Window; layout: Layout }) {
  const { x, left, right, top, bottom, text, narrow } = layout;
  const room = Math.max(2, Math.floor((right - left) / ((narrow ? 66 : 72) * text)));
  const ticks = axisTicks(window, facts.clockStartOn, room);
  return (
    <g>
      {weekLines(window).map((day) => (
        <line key={day} x1={x(day)} x2={x(day)} y1={top} y2={bottom} stroke="var(--rule)" />
      ))}
      {ticks.map((tick, index) => (
        <TickWords
          key={tick.day}
          tick={tick}
          x={x(tick.day)}
          anchor={anchorAt(narrow, index, x(tick.day) > right - 10)}
          text={text}
          surgeryKnown={facts.surgeryKnown}
        />
      ))}
    </g>
  );
}

/** On a phone the outermost words stay inside; elsewhere the margin holds them. */
function anchorAt(narrow: boolean, index: number, last: boolean): "start" | "middle" | "end" {
  if (!narrow) return "middle";
  return index === 0 ? "start" : last ? "end" : "middle";
}

function weekLines({ fromDay, toDay }: Window): number[] {
  const step = toDay - fromDay > 200 ? 91 : 7;
  const first = Math.ceil(fromDay / step) * step;
  return Array.from({ length: Math.floor((toDay - first) / step) + 1 }, (_, index) => first + index * step);
}

function TickWords({
  tick: { day, on },
  x,
  anchor,
  text,
  surgeryKnown,
}: {
  tick: AxisTick;
  x: number;
  anchor: "start" | "middle" | "end";
  text: number;
  surgeryKnown: boolean;
}) {
  const head = !surgeryKnown ? year(on) : day === 0 ? "surgery" : `day ${day}`;
  return (
    <g textAnchor={anchor}>
      <text x={x} y={12 * text} fontSize={13 * text} fontWeight={600}>
        {head}
      </text>
      <text x={x} y={26 * text} fontSize={12 * text} className="c2">
        {shortDay(on)}
      </text>
    </g>
  );
}

function year(on: PlainDate): string {
  return on.slice(0, 4);
}

/** Today, drawn under all words: their halo keeps them readable where they cross it. */
export function TodayLine({ facts, layout }: { facts: RibbonFacts; layout: Layout }) {
  const { x, top, bottom, right, text, narrow } = layout;
  const place = x(facts.nowDay);
  if (place > right || place < layout.left) return null;
  const words = facts.surgeryKnown ? `today, day ${Math.floor(facts.nowDay)}` : "today";
  const before = place + words.length * 7.5 * text > layout.width;
  return (
    <g>
      <line x1={place} x2={place} y1={top} y2={bottom} stroke="var(--ink)" strokeWidth={1.5} />
      <text
        x={place + (before ? -6 : 6)}
        y={top + (narrow ? 11 : 13) * text}
        fontSize={13 * text}
        fontWeight={700}
        className="over"
        textAnchor={before ? "end" : "start"}
      >
        {words}
      </text>
    </g>
  );
}
