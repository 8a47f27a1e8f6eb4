import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { roundel } from "../../../test/cli/roundel.ts";
import { decodePicture } from "./decode.ts";

const practice = (name: string) =>
  fileURLToPath(new URL(`../../../test/photo/practice/${name}`, import.meta.url));
const timeLimitMs = 120_000;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "photo-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("roundel compute photo", () => {
  it(
    "measures each picture on a line of its own, in order, and passes over what is none",
    async () => {
      const notes = join(folder, "notes.txt");
      writeFileSync(notes, "not a picture");
      const files = [practice("002.jpg"), join(folder, "nowhere.jpg"), notes, practice("012.jpg")];
      const { status, stdout, stderr } = await roundel(["compute", "photo", ...files, "--height-mm", "9"]);
      const lines = stdout
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line));
      expect(lines.map(({ file }) => file)).toEqual([files[0], files[3]]);
      expect(lines[0]).toMatchObject({ usable: true, markersFound: 8, height: { told: true }, reasons: [] });
      expect(Object.keys(lines[0].msByStage)).toEqual([
        "decode",
        "markers",
        "card",
        "patch",
        "outline",
        "base",
      ]);
      expect(status).toBe(2);
      expect(stderr).toContain("There is no file");
      expect(stderr).toContain("notes.txt cannot be read as a picture");
    },
    timeLimitMs,
  );

  it(
    "takes a request from standard input, whose own scale goes before the option's",
    async () => {
      const request = JSON.stringify({ path: practice("002.jpg"), cardScale: { x: 0.97, y: 0.98 } });
      const { status, stdout } = await roundel(["compute", "photo", "--card-scale", "1.02,1.02"], request);
      expect(status).toBe(0);
      expect(JSON.parse(stdout).card).toEqual({ scaleX: 0.97, scaleY: 0.98, assumed: false });
    },
    timeLimitMs,
  );

  it(
    "takes requests line by line and reports the faulty ones by number",
    async () => {
      const lines = [
        JSON.stringify({ path: practice("002.jpg") }),
        "",
        '{"path":"x.jpg","depthMm":2}',
        '{"heightMm":900}',
      ];
      const { status, stdout, stderr } = await roundel(["compute", "photo", "--lines"], lines.join("\n"));
      expect(status).toBe(2);
      expect(stdout.trim().split("\n")).toHaveLength(1);
      expect(stderr).toContain("line 3: depthMm: is not a known field");
      expect(stderr).toContain("line 4: path: is missing");
      expect(stderr).toContain("line 4: heightMm: is too large");
    },
    timeLimitMs,
  );

  it.each([
    [["--height-mm", "-1"], /millimetres from 0 to 60/],
    [["--height-mm", "tall"], /millimetres from 0 to 60/],
    [["--card-scale", "0.5,1"], /from 0.8 to 1.25/],
    [["--card-scale", "1"], /from 0.8 to 1.25/],
    [["--lines", "a.jpg"], /named on standard input/],
  ])("refuses %j", async (words, sentence) => {
    const { status, stdout, stderr } = await roundel(["compute", "photo", ...words]);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(sentence);
  });

  it(
    "writes a picture of each stage that nobody else may read",
    async () => {
      const stages = join(folder, "stages");
      await roundel(["compute", "photo", practice("002.jpg"), "--debug", stages]);
      const names = readdirSync(stages).sort();
      expect(names).toEqual(["002-1-markers.png", "002-2-patch.png", "002-3-outline.png", "002-4-base.png"]);
      for (const name of names) {
        expect(statSync(join(stages, name)).mode & 0o077).toBe(0);
        expect((await sharp(readFileSync(join(stages, name))).metadata()).format).toBe("png");
      }
    },
    timeLimitMs,
  );
});

describe("decoding a picture", () => {
  it("turns it as the camera says, and keeps its pixels alone", async () => {
    const upright = await decodePicture(practice("002.jpg"));
    const turned = join(folder, "turned.jpg");
    await sharp(practice("002.jpg"))
      .rotate(90)
      .withExif({ IFD0: { Artist: "somebody" } })
      .withMetadata({ orientation: 8 })
      .jpeg({ quality: 95 })
      .toFile(turned);
    const picture = await decodePicture(turned);
    expect(Object.keys(picture).sort()).toEqual(["data", "height", "width"]);
    expect([picture.width, picture.height]).toEqual([upright.width, upright.height]);
    let off = 0;
    for (let at = 0; at < upright.data.length; at += 4001)
      off += Math.abs(upright.data[at]! - picture.data[at]!);
    expect(off / (upright.data.length / 4001)).toBeLessThan(4);
  });
});
