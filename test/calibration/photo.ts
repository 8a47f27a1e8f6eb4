/**
 * How far sizes from photographs are from the truth, and how often the truth lies within the stated uncertainty.
 * Prints the table of docs/photo.md and, with --plot FILE, draws its picture. Each set is a folder of photographs with
 * their truths beside them, as test/photo/render/write.ts writes them:
 *
 *   npx tsx test/photo/render/write.ts /tmp/development 1 39
 *   npx tsx test/photo/render/write.ts /tmp/held-out 1001 51
 *   npx tsx test/calibration/photo.ts practice=test/photo/practice development=/tmp/development \
 *     held-out=/tmp/held-out --plot docs/pictures/photo-calibration.svg
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { decodePicture } from "../../src/cli/photo/decode.ts";
import { measurePhoto } from "../../src/domain/photo/index.ts";
import { quantile, scoreOf, type Truth } from "../photo/score/score.ts";
import { drawCalibration, type Measured, type MeasuredSet } from "./photoPlot.ts";

const args = process.argv.slice(2);
const plotAt = args.indexOf("--plot");
const plot = plotAt < 0 ? null : args[plotAt + 1]!;
const sets = args.filter((arg) => arg.includes("=")).map((arg) => arg.split("=") as [string, string]);

const columns = ["set", "height", "photos", "usable", "median", "p90", "max", "within", "IoU", "Hausdorff"];
printRow(columns);
printRow(columns.map(() => "---"));
const measured: MeasuredSet[] = [];
for (const [name, folder] of sets) {
  for (const told of [false, true]) {
    const { photos, rows } = await measureAll(folder, told);
    printRow([name, told ? "told" : "not told", String(photos), String(rows.length), ...figures(rows)]);
    if (!told) measured.push({ name, rows });
  }
}
if (plot) writeFileSync(plot, drawCalibration(measured));

async function measureAll(folder: string, told: boolean): Promise<{ photos: number; rows: Measured[] }> {
  const names = readdirSync(folder).filter((name) => name.endsWith(".jpg"));
  const rows: Measured[] = [];
  for (const name of names) {
    const truth = JSON.parse(readFileSync(join(folder, name.replace("jpg", "json")), "utf8")) as Truth;
    const picture = await decodePicture(join(folder, name));
    const { outline, uncertaintyMm } = measurePhoto(picture, told ? { heightMm: truth.heightMm } : {});
    if (outline !== null) rows.push({ ...scoreOf(outline, truth), uncertaintyMm: uncertaintyMm! });
  }
  return { photos: names.length, rows };
}

function figures(rows: readonly Measured[]): string[] {
  const errors = rows.map(({ diameterErrorMm }) => Math.abs(diameterErrorMm));
  const within = rows.filter((row) => Math.abs(row.diameterErrorMm) <= row.uncertaintyMm).length;
  return [
    ...[0.5, 0.9, 1].map((part) => quantile(errors, part).toFixed(2)),
    `${((100 * within) / rows.length).toFixed(0)} %`,
    quantile(
      rows.map(({ overlap }) => overlap),
      0.5,
    ).toFixed(3),
    quantile(
      rows.map(({ hausdorffMm }) => hausdorffMm),
      0.5,
    ).toFixed(2),
  ];
}

function printRow(cells: readonly string[]): void {
  console.log(`| ${cells.join(" | ")} |`);
}
