import type { Measured } from "./measure.ts";

const paper = "#F4F2EA";
const ink = "#15212C";
const inkTwo = "#45515C";
const rule = "#CBC8BC";
const stoma = "#A5154B";

const width = 760;
const height = 470;
const plot = { left: 70, right: 560, top: 70, bottom: 400 };

interface Line {
  words: string;
  barMs: number;
  of(one: Measured): number;
  stroke: string;
  dash?: string;
}

const lines: Line[] = [
  { words: "First page of Today", barMs: 50, of: ({ todayMs }) => todayMs.p95, stroke: stoma },
  { words: "A person’s page", barMs: 50, of: ({ personMs }) => personMs.p95, stroke: ink },
  { words: "Add an entry", barMs: 5, of: ({ addMs }) => addMs.p95, stroke: inkTwo, dash: "7 4" },
];

const msTicks = [0.1, 1, 5, 10, 50, 100];

/** Growth with the number of people, both axes in powers of ten: what 95 of 100 tries stayed under. */
export function picture(measured: readonly Measured[], made: { command: string; on: string }): string {
  const least = Math.log10(measured[0]!.people);
  const most = Math.log10(measured.at(-1)!.people);
  const x = (people: number) =>
    between(plot.left, plot.right, (Math.log10(people) - least) / (most - least || 1));
  const y = (ms: number) => between(plot.bottom, plot.top, (Math.log10(ms) + 1) / 3);
  const parts = [
    `<rect width="${width}" height="${height}" fill="${paper}"/>`,
    text(20, 32, "How the bench slows as the record grows", { size: 20, weight: 700 }),
    text(20, 53, "Milliseconds that 95 in 100 tries stayed under; about 200 entries a person", {
      fill: inkTwo,
    }),
    ...msTicks.flatMap((ms) => [
      `<line x1="${plot.left}" x2="${plot.right}" y1="${y(ms)}" y2="${y(ms)}" stroke="${rule}"/>`,
      text(plot.left - 8, y(ms) + 5, String(ms), { anchor: "end", fill: inkTwo }),
    ]),
    ...measured.map(
      ({ people, entries }) =>
        text(x(people), plot.bottom + 22, `${people.toLocaleString("en")} people`, { anchor: "middle" }) +
        text(x(people), plot.bottom + 40, `${(entries / 1e6).toPrecision(2)} million entries`, {
          anchor: "middle",
          fill: inkTwo,
        }),
    ),
    ...lines.flatMap((line) => drawn(line, measured, x, y)),
    text(20, height - 12, `Made by ${made.command} on ${made.on}; the table is in docs/scale.md.`, {
      fill: inkTwo,
    }),
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="Growth of three waits with the number of people" font-family="'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', system-ui, sans-serif">\n${parts.join("\n")}\n</svg>\n`;
}

function drawn(
  { words, barMs, of, stroke, dash }: Line,
  measured: readonly Measured[],
  x: (people: number) => number,
  y: (ms: number) => number,
): string[] {
  const points = measured.map((one) => [x(one.people), y(of(one))] as const);
  const path = points.map(([px, py]) => `${px.toFixed(1)},${py.toFixed(1)}`).join(" ");
  const [endX, endY] = points.at(-1)!;
  const last = of(measured.at(-1)!);
  return [
    `<polyline points="${path}" fill="none" stroke="${stroke}" stroke-width="2.5"${dash ? ` stroke-dasharray="${dash}"` : ""}/>`,
    ...points.map(
      ([px, py]) => `<circle cx="${px.toFixed(1)}" cy="${py.toFixed(1)}" r="4" fill="${stroke}"/>`,
    ),
    text(endX + 12, endY - 2, words, { weight: 600 }),
    text(endX + 12, endY + 15, `${last.toFixed(1)} ms; to stay under ${barMs}`, { fill: inkTwo }),
  ];
}

function text(
  x: number,
  y: number,
  words: string,
  { size = 13, weight = 400, fill = ink, anchor = "start" } = {},
): string {
  return `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" font-size="${size}" font-weight="${weight}" fill="${fill}" text-anchor="${anchor}">${words}</text>`;
}

function between(from: number, to: number, share: number): number {
  return from + (to - from) * share;
}
