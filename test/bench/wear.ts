import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  lifetimesOf,
  type SurvivalCurve,
  survivalCurve,
  type Wear,
  type WeibullFit,
  weibullFit,
} from "../../src/domain/wear/index.ts";
import { seeded } from "../calibration/population.ts";

type Print = (line: string) => void;

const repeats = 3;
const script = fileURLToPath(new URL("./wear.R", import.meta.url));

/**
 * Leak-free curve with limits and Weibull fit of 100,000 and 1,000,000 wears, here and by R's survfit and
 * survreg on the same wears in the same run. Ours is timed from the list of wears, sorting included; R's from
 * its vectors, start-up and reading not included. Medians of three.
 */
export async function benchWear(print: Print): Promise<void> {
  const hasR = spawnSync("Rscript", ["-e", "library(survival)"], { stdio: "ignore" }).status === 0;
  if (!hasR) print("Rscript with the survival package is not on this machine: our time alone, no ratio");
  for (const n of [100_000, 1_000_000]) {
    const wears = generatedWears(n);
    const ours = measured(wears);
    const label = `${n.toLocaleString("en")} wears, curve + Weibull`;
    const time = `${ms(ours.curveMs + ours.fitMs)} (${ms(ours.curveMs)} + ${ms(ours.fitMs)})`;
    if (!hasR) {
      print(`${label}: ours ${time}`);
      continue;
    }
    const r = measuredByR(wears);
    const ratio = (r.curveMs + r.fitMs) / (ours.curveMs + ours.fitMs);
    print(
      `${label}: ours ${time}, R survival ${r.version} ${ms(r.curveMs + r.fitMs)} (${ms(r.curveMs)} + ${ms(r.fitMs)}), R/ours ${ratio.toFixed(1)}`,
    );
    print(`  largest difference: ${differences(ours, r)}`);
  }
}

/** Weibull wears of shape 2 and scale 8 days, changed on a plan between 3 and 7 days. */
function generatedWears(n: number): Wear[] {
  const random = seeded(n);
  return Array.from({ length: n }, () => {
    const fails = 8 * Math.sqrt(-Math.log1p(-random()));
    const change = 3 + 4 * random();
    return fails < change ? { days: fails, ended: "leak" } : { days: change, ended: "planned" };
  });
}

interface Ours {
  curve: SurvivalCurve;
  fit: WeibullFit;
  curveMs: number;
  fitMs: number;
}

function measured(wears: readonly Wear[]): Ours {
  const runs = Array.from({ length: repeats }, () => {
    const start = performance.now();
    const lifetimes = lifetimesOf(wears);
    const curve = survivalCurve(lifetimes);
    const drawn = performance.now();
    const fit = weibullFit(lifetimes);
    const done = performance.now();
    if (typeof fit === "string") throw new Error(`no fit: ${fit}`);
    return { curve, fit, curveMs: drawn - start, fitMs: done - drawn };
  });
  return {
    ...runs.at(-1)!,
    curveMs: median(runs.map(({ curveMs }) => curveMs)),
    fitMs: median(runs.map(({ fitMs }) => fitMs)),
  };
}

interface ByR {
  version: string;
  curveMs: number;
  fitMs: number;
  rows: number;
  shape: number;
  scale: number;
  /** Rows of the curve that are compared, with their survival and lower limit. */
  shown: number[];
  survival: number[];
  lower: number[];
}

function measuredByR(wears: readonly Wear[]): ByR {
  const folder = mkdtempSync(join(tmpdir(), "wear-bench-"));
  try {
    const file = join(folder, "wears.bin");
    const days = Float64Array.from(wears, (wear) => wear.days);
    const leak = Uint8Array.from(wears, ({ ended }) => (ended === "leak" ? 1 : 0));
    writeFileSync(file, Buffer.concat([Buffer.from(days.buffer), Buffer.from(leak.buffer)]));
    const run = spawnSync("Rscript", [script, file, String(wears.length), String(repeats)], {
      encoding: "utf8",
    });
    if (run.status !== 0) throw new Error(`Rscript failed: ${run.stderr}`);
    const [version, curveMs, fitMs, law, shown, survival, lower] = run.stdout.trim().split("\n");
    const [rows, shape, scale] = numbers(law!);
    return {
      version: version!.trim(),
      curveMs: median(numbers(curveMs!)),
      fitMs: median(numbers(fitMs!)),
      rows: rows!,
      shape: shape!,
      scale: scale!,
      shown: numbers(shown!),
      survival: numbers(survival!),
      lower: numbers(lower!),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** R leaves NA where a limit does not exist. */
function numbers(line: string): number[] {
  return line
    .trim()
    .split(/\s+/)
    .map((word) => (word === "NA" ? Number.NaN : Number(word)));
}

function differences({ curve, fit }: Ours, r: ByR): string {
  if (curve.days.length !== r.rows) return `the curves have ${curve.days.length} and ${r.rows} rows`;
  const largest = (ours: Float64Array, theirs: readonly number[]) =>
    Math.max(...r.shown.map((row, i) => Math.abs(ours[row]! - theirs[i]!)).filter((d) => !Number.isNaN(d)));
  return [
    `survival ${largest(curve.survival, r.survival).toExponential(1)}`,
    `lower limit ${largest(curve.lower, r.lower).toExponential(1)}`,
    `shape ${Math.abs(fit.shape / r.shape - 1).toExponential(1)}`,
    `scale ${Math.abs(fit.scale / r.scale - 1).toExponential(1)}`,
  ].join(", ");
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

function ms(value: number): string {
  return `${Math.round(value)} ms`;
}
