import { mkdtempSync, readFileSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openRecord } from "../../src/record/open/index.ts";
import { recordFile } from "../../src/record/store/index.ts";
import { Filling } from "./scale/fill.ts";
import { type Measured, measure } from "./scale/measure.ts";
import { picture } from "./scale/picture.ts";
import { shown, withTable } from "./scale/table.ts";

type Print = (line: string) => void;

const command = "npm run bench -- scale";
const sizes = (process.env.SCALE_PEOPLE ?? "1000,10000,100000").split(",").map(Number);

/** Bytes on disk for each person, with room for the journal while indexes are made. */
const bytesEach = 350_000;

const docs = (...path: string[]) => fileURLToPath(new URL(`../../docs/${path.join("/")}`, import.meta.url));

/**
 * Fills a record in a folder that is deleted afterwards and measures the waits that a nurse has, at each size on the
 * way. SCALE_PEOPLE=1000,5000 measures other sizes; only the usual ones are drawn into docs.
 */
export async function benchScale(print: Print): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), "roundel-scale-"));
  try {
    const measured = await grown(dataDir, roomFor(dataDir, print), print);
    if (process.env.SCALE_PEOPLE === undefined) keep(measured);
  } finally {
    rmSync(dataDir, { recursive: true, force: true });
  }
}

/** As many as the disk has room for. */
function roomFor(dataDir: string, print: Print): number[] {
  const { bavail, bsize } = statfsSync(dataDir);
  const most = Math.floor((bavail * bsize) / bytesEach);
  const fitting = sizes.filter((people) => people <= most);
  if (fitting.length < sizes.length) print(`the disk has room for ${most.toLocaleString("en")} people`);
  return fitting;
}

async function grown(dataDir: string, wanted: number[], print: Print): Promise<Measured[]> {
  await (await openRecord({ dataDir })).close();
  const nowMs = Date.now();
  const filling = new Filling(recordFile(dataDir), nowMs);
  const measured: Measured[] = [];
  for (const people of wanted) {
    const began = Date.now();
    filling.to(people, (there) => {
      if (there % 5000 === 0) process.stderr.write(`  ${there.toLocaleString("en")} people\r`);
    });
    const seconds = Math.round((Date.now() - began) / 1000);
    const one = await measure(dataDir, nowMs);
    measured.push(one);
    print(
      `${one.people.toLocaleString("en")} people, ${one.entries.toLocaleString("en")} entries (${seconds} s to fill)`,
    );
    print(`  first page of Today ${shown(one.todayMs)} ms, engine alone ${shown(one.bare.todayMs)}`);
    print(`  add an entry ${shown(one.addMs)} ms, engine alone ${shown(one.bare.addMs)}`);
    print(`  a person's page ${shown(one.personMs)} ms, engine alone ${shown(one.bare.personMs)}`);
  }
  filling.close();
  return measured;
}

function keep(measured: readonly Measured[]): void {
  const on = new Date().toISOString().slice(0, 10);
  const page = docs("scale.md");
  const machine = `${cpus().length} cores, ${cpus()[0]?.model.trim() ?? "unknown processor"}`;
  const made = `Made by \`${command}\` on ${on}, Node ${process.versions.node}, ${machine}. Milliseconds, p50 / p95.`;
  writeFileSync(page, withTable(readFileSync(page, "utf8"), measured, made));
  writeFileSync(docs("pictures", "scale.svg"), picture(measured, { command, on }));
}
