import type { TodayLine } from "../../../record/today/index.ts";

const most = 7;
const [width, height, base, left] = [180, 46, 42, 8];

/** Days worn at the last changes: a ring for a planned one, a cross for one that was not. */
export function WearSpark({ wears, limitDays }: { wears: TodayLine["wears"]; limitDays: number }) {
  const shown = wears.slice(-most);
  const tallest = Math.max(...shown.map(({ days }) => days), limitDays * 1.5);
  const y = (days: number) => base - (days / tallest) * (base - 5);
  const end = left + (shown.length - 1) * 18 + 10;
  return (
    <figure className="today-spark">
      <svg width={width} height={height} role="img" aria-label={sparkWords(shown)}>
        {shown.map((wear, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: wears carry no id here and never change places
          <WearMark key={index} wear={wear} x={left + index * 18} y={y(wear.days)} />
        ))}
        <line x1={0} x2={end} y1={y(limitDays)} y2={y(limitDays)} stroke="var(--ink)" strokeDasharray="3 2" />
        <text x={end + 5} y={y(limitDays) + 4} fontSize={13} className="c2">
          {limitDays} days
        </text>
        <line x1={0} x2={end} y1={base + 0.5} y2={base + 0.5} stroke="var(--ink-3)" />
      </svg>
      <figcaption>Days worn, last {shown.length} changes</figcaption>
    </figure>
  );
}

function WearMark({ wear, x, y }: { wear: TodayLine["wears"][number]; x: number; y: number }) {
  if (wear.planned) {
    return (
      <>
        <line x1={x} x2={x} y1={base} y2={y} stroke="var(--ink-3)" strokeWidth={2} />
        <circle cx={x} cy={y} r={3.5} fill="var(--paper)" stroke="var(--ink-2)" strokeWidth={1.5} />
      </>
    );
  }
  return (
    <>
      <line x1={x} x2={x} y1={base} y2={y} stroke="var(--ink)" strokeWidth={wear.short ? 3 : 2} />
      <path d={`M${x - 4} ${y - 4}l8 8m0 -8l-8 8`} stroke="var(--ink)" strokeWidth={2} fill="none" />
    </>
  );
}

function sparkWords(wears: TodayLine["wears"]): string {
  const each = wears.map(({ days, planned }) => `${days.toFixed(1)}${planned ? "" : " unplanned"}`);
  return `Days worn at the last ${wears.length} changes: ${each.join(", ")}`;
}
