import { band, path } from "../../../shared/chart/index.ts";
import type { ReadingMark, RibbonFacts } from "./facts.ts";
import type { Layout } from "./layout.ts";
import type { Window } from "./window.ts";

/** The stoma's size: the fitted line with its band, and every reading by how it was taken. */
export function SizeRow({
  facts,
  window,
  layout,
  letters,
}: {
  facts: RibbonFacts;
  window: Window;
  layout: Layout;
  /** Letters of the footnotes about corrected readings. */
  letters: ReadonlyMap<string, string>;
}) {
  const inside = facts.readings.filter(({ day }) => day >= window.fromDay && day <= window.toDay);
  const last = inside.at(-1);
  return (
    <g>
      <SizeGrid layout={layout} />
      <FittedCurve facts={facts} window={window} layout={layout} />
      {inside.map((reading) => (
        <ReadingShape key={reading.entryId} reading={reading} layout={layout} />
      ))}
      {inside.map((reading) => {
        const letter = letters.get(reading.entryId);
        return letter && reading !== last ? (
          <text
            key={reading.entryId}
            x={layout.x(reading.day) + 6}
            y={layout.y(reading.mm) - 4}
            fontSize={11 * layout.text}
            fontWeight={700}
            className="over"
          >
            {letter}
          </text>
        ) : null;
      })}
      {last && <LastFigure reading={last} layout={layout} letter={letters.get(last.entryId)} />}
    </g>
  );
}

function SizeGrid({ layout }: { layout: Layout }) {
  const { left, right, y, text, narrow, size } = layout;
  return (
    <g>
      {narrow ? (
        <text x={0} y={size[0] - 12 * text} fontSize={13 * text} fontWeight={700} className="over">
          Size, mm across
        </text>
      ) : (
        <>
          <text x={0} y={size[0] + 10 * text} fontSize={15 * text} fontWeight={700}>
            Size
          </text>
          <text x={0} y={size[0] + 27 * text} fontSize={13 * text} className="c2">
            mm across
          </text>
        </>
      )}
      {layout.sizeTicks.map((mm) => (
        <g key={mm}>
          <line x1={left} x2={right} y1={y(mm)} y2={y(mm)} stroke="var(--rule)" />
          <text x={left - 6} y={y(mm) + 4 * text} fontSize={13 * text} textAnchor="end" className="c2">
            {mm}
          </text>
        </g>
      ))}
    </g>
  );
}

function FittedCurve({ facts, window, layout }: { facts: RibbonFacts; window: Window; layout: Layout }) {
  const { x, y, text, narrow } = layout;
  const days = (facts.forecast ?? []).filter(({ day }) => day >= window.fromDay && day <= window.toDay);
  if (days.length < 2) return null;
  const past = days.filter(({ day }) => day <= facts.nowDay);
  const ahead = days.filter(({ day }) => day >= Math.floor(facts.nowDay));
  const line = (part: typeof days) => path(part.map(({ day, mm }) => [x(day), y(mm)]));
  const label = ahead.at(-6);
  return (
    <g>
      <path
        d={band(
          days.map(({ day, upper80 }) => [x(day), y(upper80)]),
          days.map(({ day, lower80 }) => [x(day), y(lower80)]),
        )}
        fill="var(--stoma-wash)"
      />
      <path d={line(past)} fill="none" stroke="var(--stoma)" strokeWidth={2.5} />
      <path
        d={line(ahead)}
        fill="none"
        stroke="var(--stoma)"
        strokeWidth={2}
        strokeDasharray="1 4"
        strokeLinecap="round"
      />
      {label && !narrow && (
        <text
          x={x(label.day)}
          y={y(label.mm) - 9 * text}
          fontSize={13 * text}
          textAnchor="middle"
          className="over"
        >
          likely size, 80 %
        </text>
      )}
    </g>
  );
}

/** A guide reading is a bar as tall as its ring step; a tracing or a typed size is a dot. */
function ReadingShape({
  reading: { day, mm, stepMm },
  layout: { x, y },
}: {
  reading: ReadingMark;
  layout: Layout;
}) {
  if (stepMm !== null) {
    const height = Math.max(4, y(mm - stepMm) - y(mm));
    return (
      <rect
        x={x(day) - 2.5}
        width={5}
        y={y(mm)}
        height={height}
        rx={2.5}
        fill="var(--paper)"
        stroke="var(--stoma)"
        strokeWidth={1.75}
      />
    );
  }
  return <circle cx={x(day)} cy={y(mm)} r={5} fill="var(--stoma)" stroke="var(--paper)" strokeWidth={1.5} />;
}

function LastFigure({ reading, layout, letter }: { reading: ReadingMark; layout: Layout; letter?: string }) {
  const { x, y, text, width } = layout;
  const place = x(reading.day);
  const before = place + 60 * text > width;
  return (
    <text
      x={place + (before ? -9 : 9)}
      y={y(reading.mm) - 9 * text}
      fontSize={13 * text}
      fontWeight={700}
      textAnchor={before ? "end" : "start"}
      className="over"
    >
      {reading.mm.toFixed(1)}
      {letter && (
        <tspan fontSize={11 * text} dy={-5 * text}>
          {letter}
        </tspan>
      )}
    </text>
  );
}
