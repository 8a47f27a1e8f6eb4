import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { decodePicture } from "../../src/cli/photo/decode.ts";
import { measureOutline, type Outline, type Point } from "../../src/domain/outline/index.ts";
import { measurePhoto, type Pixels } from "../../src/domain/photo/index.ts";
import { baseOutline, render } from "../photo/render/render.ts";
import { sceneOf } from "../photo/render/scene.ts";
import { quantile, type Score, scoreOf, type Truth } from "../photo/score/score.ts";

type Print = (line: string) => void;

const practice = fileURLToPath(new URL("../photo/practice/", import.meta.url));
const cardFile = fileURLToPath(new URL("../../src/domain/frame-card/frame-card.json", import.meta.url));
const peer = fileURLToPath(new URL("photo.py", import.meta.url));
/** Seeds that neither development nor calibration used. */
const freshSeeds = Array.from({ length: 8 }, (_, at) => 20261125 + at);
const bars = "bars: median 0.6, p90 1.5, none over 3 mm called usable, four of five within the uncertainty";

interface Row extends Score {
  ms: number;
  uncertaintyMm: number | null;
}

/**
 * Accuracy and time of the photograph measurement: each practice photograph beside the OpenCV reference pipeline
 * (where python3-opencv is installed), and rendered photographs with seeds of their own. Sizes are of the true base.
 */
export async function benchPhoto(print: Print): Promise<void> {
  const names = readdirSync(practice).filter((name) => name.endsWith(".jpg"));
  const peerRows = peerMeasures(names.map((name) => practice + name));
  if (peerRows === null) print("python3-opencv is not installed: the reference pipeline is left out");
  const ours: (Row | null)[] = [];
  const theirs: (Row | null)[] = [];
  for (const [at, name] of names.entries()) {
    const truth = JSON.parse(readFileSync(practice + name.replace("jpg", "json"), "utf8")) as Truth;
    const own = await measured(() => decodePicture(practice + name), truth);
    const other = peerRows?.[at] ? peerRow(peerRows[at], truth) : null;
    ours.push(own.row);
    theirs.push(other);
    const beside = other ? `; OpenCV pipeline ${shown(other)}` : "";
    print(`${name} ${own.row ? shown(own.row) : own.why}${beside} (${truth.tags.join(", ")})`);
  }
  print(`practice, ours: ${summed(ours)}`);
  if (peerRows) print(`practice, OpenCV pipeline: ${summed(theirs)}`);
  const rendered: (Row | null)[] = [];
  for (const seed of freshSeeds) {
    const scene = sceneOf(seed);
    const picture = render(scene);
    const truth = truthOf(scene.tags, baseOutline(scene), scene.stoma.heightMm);
    const own = await measured(async () => picture, truth);
    rendered.push(own.row);
    print(`seed ${seed} ${own.row ? shown(own.row) : own.why} (${truth.tags.join(", ")})`);
  }
  print(`rendered, ours: ${summed(rendered)}`);
  print(bars);
}

function truthOf(tags: readonly string[], base: readonly Point[], heightMm: number): Truth {
  const { outline, equivalentDiameterMm } = measureOutline({ outline: base });
  return { tags, baseOutlineMm: outline, equivalentDiameterMm, heightMm };
}

async function measured(
  decode: () => Promise<Pixels>,
  truth: Truth,
): Promise<{ row: Row | null; why: string }> {
  const start = performance.now();
  const measurement = measurePhoto(await decode());
  const ms = performance.now() - start;
  const { usable, outline, uncertaintyMm, reasons } = measurement;
  if (!usable || outline === null) return { row: null, why: `refused: ${reasons.map(({ code }) => code)}` };
  return { row: { ...scoreOf(outline, truth), uncertaintyMm, ms }, why: "" };
}

interface PeerMeasure {
  outline: Outline | null;
  ms: number;
}

/** Null where Python or OpenCV is not there. */
function peerMeasures(files: readonly string[]): PeerMeasure[] | null {
  for (const python of ["python3", "/usr/bin/python3"]) {
    const { status, stdout } = spawnSync(python, [peer, cardFile, ...files], {
      encoding: "utf8",
      maxBuffer: 1e8,
    });
    if (status === 0)
      return stdout
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line) as PeerMeasure);
  }
  return null;
}

function peerRow({ outline, ms }: PeerMeasure, truth: Truth): Row | null {
  if (outline === null) return null;
  return { ...scoreOf(measureOutline({ outline }).outline, truth), uncertaintyMm: null, ms };
}

function shown({ diameterErrorMm, uncertaintyMm, overlap, hausdorffMm, ms }: Row): string {
  const sure = uncertaintyMm === null ? "" : ` ± ${uncertaintyMm.toFixed(2)}`;
  const sign = diameterErrorMm >= 0 ? "+" : "";
  return `${sign}${diameterErrorMm.toFixed(2)}${sure} mm, IoU ${overlap.toFixed(3)}, Hausdorff ${hausdorffMm.toFixed(2)} mm, ${ms.toFixed(0)} ms`;
}

function summed(rows: readonly (Row | null)[]): string {
  const usable = rows.filter((row) => row !== null);
  if (usable.length === 0) return "none usable";
  const errors = usable.map(({ diameterErrorMm }) => Math.abs(diameterErrorMm));
  const sure = usable.filter((row) => row.uncertaintyMm !== null);
  const within = sure.filter((row) => Math.abs(row.diameterErrorMm) <= row.uncertaintyMm!);
  const of = (part: number) => quantile(errors, part).toFixed(2);
  const overlap = quantile(
    usable.map((row) => row.overlap),
    0.5,
  ).toFixed(3);
  const hausdorff = quantile(
    usable.map((row) => row.hausdorffMm),
    0.5,
  ).toFixed(2);
  const ms = quantile(
    usable.map((row) => row.ms),
    0.5,
  ).toFixed(0);
  const inside = sure.length > 0 ? `, ${within.length} of ${sure.length} within their uncertainty` : "";
  return (
    `usable ${usable.length} of ${rows.length}; |diameter error| median ${of(0.5)}, p90 ${of(0.9)}, max ${of(1)} mm, ` +
    `over 3 mm ${errors.filter((error) => error > 3).length}${inside}; median IoU ${overlap}, Hausdorff ${hausdorff} mm, ${ms} ms`
  );
}
