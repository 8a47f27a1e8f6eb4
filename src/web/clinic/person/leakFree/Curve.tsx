import type { CurveRow } from "../../../../domain/wear/index.ts";
import { type Scale, scale, ticks, useDrawing } from "../../../shared/chart/index.ts";
import { days } from "../../../shared/words/index.ts";
import { atRiskOn, type SystemWear } from "./facts.ts";

interface Room {
  x: Scale;
  y: Scale;
  left: number;
  right: number;
  top: number;
  bottom: number;
  text: number;
  dayTicks: number[];
}

/** Share of barriers still leak-free by days worn, with 95 % limits, the plan, and how many were at risk. */
export function Curve({ front, other }: { front: SystemWear; other: SystemWear | null }) {
  const { ref, width, text } = useDrawing<HTMLDivElement>();
  const systems = other ? [front, other] : [front];
  const room = roomFor(systems, width, text);
  const height = room.bottom + (40 + 20 * systems.length) * text;
  return (
    <div ref={ref}>
      {width > 0 && (
        <svg width={width} height={height} role="img" aria-label={curveWords(systems)}>
          <Grid room={room} />
          {other && <Band rows={other.curve} room={room} />}
          <Band rows={front.curve} room={room} />
          {other && <Steps rows={other.curve} room={room} quiet />}
          <Steps rows={front.curve} room={room} />
          <Plan plannedDays={front.plannedDays} room={room} />
          {other && <LineNames front={front} other={other} room={room} />}
          <AtRisk systems={systems} room={room} />
        </svg>
      )}
    </div>
  );
}

function roomFor(systems: readonly SystemWear[], width: number, text: number): Room {
  const longest = Math.max(
    ...systems.map(({ longestDays, plannedDays }) => Math.max(longestDays, plannedDays)),
  );
  const [left, right] = [52 * text, width - 14 * text];
  const [top, bottom] = [24 * text, 206 * text];
  return {
    x: scale([0, longest * 1.04], [left, right]),
    y: scale([0, 1], [bottom, top]),
    left,
    right,
    top,
    bottom,
    text,
    dayTicks: ticks([0, longest * 1.04], Math.max(2, Math.floor((right - left) / (58 * text)))),
  };
}

function Grid({ room: { x, y, left, right, bottom, text, dayTicks } }: { room: Room }) {
  return (
    <g>
      {[0, 0.5, 1].map((share) => (
        <g key={share}>
          <line
            x1={left}
            x2={right}
            y1={y(share)}
            y2={y(share)}
            stroke={share === 0 ? "var(--ink-3)" : "var(--rule)"}
          />
          <text x={left - 6} y={y(share) + 4 * text} fontSize={13 * text} textAnchor="end" className="c2">
            {share * 100} %
          </text>
        </g>
      ))}
      {dayTicks.map((day) => (
        <g key={day}>
          <line x1={x(day)} x2={x(day)} y1={bottom} y2={bottom + 5} stroke="var(--ink-3)" />
          <text x={x(day)} y={bottom + 18 * text} fontSize={13 * text} textAnchor="middle">
            {day === 0 ? "0" : days(day)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** The curve as it falls: level between leaks. */
function Steps({ rows, room: { x, y }, quiet }: { rows: readonly CurveRow[]; room: Room; quiet?: boolean }) {
  const line = rows.map((row) => `H${x(row.days).toFixed(1)}V${y(row.survival).toFixed(1)}`).join("");
  return (
    <path
      d={`M${x(0).toFixed(1)} ${y(1).toFixed(1)}${line}`}
      fill="none"
      stroke={quiet ? "var(--ink-2)" : "var(--ink)"}
      strokeWidth={quiet ? 1.5 : 2.5}
      strokeDasharray={quiet ? "2 3" : undefined}
    />
  );
}

/** 95 % limits, from the first leak on: before it the data give none. */
function Band({ rows, room: { x, y } }: { rows: readonly CurveRow[]; room: Room }) {
  const known = rows.filter((row) => row.lower !== null && row.upper !== null);
  if (known.length < 2) return null;
  const step = (value: (row: CurveRow) => number) =>
    known.map((row, index) => ({
      x: x(row.days),
      to: x(known[index + 1]?.days ?? row.days),
      y: y(value(row)),
    }));
  const upper = step((row) => row.upper!);
  const lower = step((row) => row.lower!).reverse();
  const forth = upper.map((one) => `L${one.x.toFixed(1)} ${one.y.toFixed(1)}H${one.to.toFixed(1)}`).join("");
  const back = lower.map((one) => `L${one.to.toFixed(1)} ${one.y.toFixed(1)}H${one.x.toFixed(1)}`).join("");
  return <path d={`M${forth.slice(1)}${back}Z`} fill="var(--wash)" fillOpacity={0.85} />;
}

function Plan({ plannedDays, room: { x, top, bottom, text, right } }: { plannedDays: number; room: Room }) {
  const place = x(plannedDays);
  const words = `planned, ${days(plannedDays)}`;
  const before = place + words.length * 7 * text > right;
  return (
    <g>
      <line x1={place} x2={place} y1={top} y2={bottom} stroke="var(--ink)" strokeDasharray="3 3" />
      <text
        x={place + (before ? -6 : 6)}
        y={top - 8 * text}
        fontSize={13 * text}
        textAnchor={before ? "end" : "start"}
        className="over"
      >
        {words}
      </text>
    </g>
  );
}

/** Names at the end of each line; apart where the lines end close together. */
function LineNames({ front, other, room }: { front: SystemWear; other: SystemWear; room: Room }) {
  const { x, y, text, right, top } = room;
  const end = ({ curve }: SystemWear) => ({
    x: Math.min(right, x(curve.at(-1)?.days ?? 0)),
    y: y(curve.at(-1)?.survival ?? 1),
  });
  const [a, b] = [end(front), end(other)];
  const close = Math.abs(a.y - b.y) < 18 * text;
  const frontAbove = a.y <= b.y;
  const label = (at: { x: number; y: number }, above: boolean, words: string, bold: boolean) => (
    <text
      x={at.x - 4}
      y={at.y + (above && at.y > top + 20 * text ? -7 : 16) * text}
      fontSize={13 * text}
      fontWeight={bold ? 700 : 400}
      textAnchor="end"
      className="over"
    >
      {words}
    </text>
  );
  return (
    <g>
      {label(a, close ? frontAbove : true, "in use", true)}
      {label(b, close ? !frontAbove : true, "beside it", false)}
    </g>
  );
}

function AtRisk({ systems, room }: { systems: readonly SystemWear[]; room: Room }) {
  const { x, bottom, text, dayTicks } = room;
  return (
    <g fontSize={13 * text}>
      <text x={0} y={bottom + 40 * text} className="c2">
        {systems.length > 1 ? "worn that long; bold: in use" : "worn that long"}
      </text>
      {systems.map((system, row) => (
        <g key={system.name} fontWeight={row === 0 ? 700 : 400}>
          {dayTicks.map((day) => (
            <text key={day} x={x(day)} y={bottom + (58 + row * 20) * text} textAnchor="middle">
              {day === 0 ? system.wears : atRiskOn(system.curve, day)}
            </text>
          ))}
        </g>
      ))}
    </g>
  );
}

function curveWords(systems: readonly SystemWear[]): string {
  const each = systems.map(({ name, wears, leaks }) => `${name}: ${wears} wears, ${leaks} leaks`);
  return `Share of barriers still leak-free by days worn. ${each.join("; ")}.`;
}
