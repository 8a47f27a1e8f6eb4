/** One thing wrong at a time, on a rendered photograph that is otherwise easy. */
import { beforeAll, describe, expect, it } from "vitest";
import { plainScene } from "../../../test/photo/render/plain.ts";
import { baseOutline, render } from "../../../test/photo/render/render.ts";
import { areaMm2 } from "../outline/index.ts";
import { protocolWith } from "../protocol/index.ts";
import { liveFrame } from "./live.ts";
import { toPicture } from "./mapping/place.ts";
import { measurePhoto, type Stage } from "./measure.ts";
import type { Pixels } from "./picture/pixels.ts";
import type { PhotoMeasurement } from "./result.ts";

const scene = plainScene();
const trueDiameterMm = 2 * Math.sqrt(areaMm2(baseOutline(scene)) / Math.PI);
let photo: Pixels;
let usual: PhotoMeasurement;
const stages: Stage["name"][] = [];

beforeAll(() => {
  photo = render(scene);
  usual = measurePhoto(photo, { onStage: ({ name }) => stages.push(name) });
}, 120_000);

/** A copy of the photograph with each pixel's bytes changed; card coordinates tell where it lies, in mm. */
function changed(change: (bytes: [number, number, number], xMm: number, yMm: number) => void): Pixels {
  const data = Uint8ClampedArray.from(photo.data);
  const [middle, right, up] = (
    [
      [0, 0],
      [1, 0],
      [0, 1],
    ] as const
  ).map((place) => toPicture(scene.view, place));
  for (let at = 0; at < photo.width * photo.height; at++) {
    // The view is nearly straight: its map near the middle is good enough to say where on the card a pixel lies.
    const [dx, dy] = [(at % photo.width) - middle![0], Math.floor(at / photo.width) - middle![1]];
    const [a, b, c, d] = [
      right![0] - middle![0],
      up![0] - middle![0],
      right![1] - middle![1],
      up![1] - middle![1],
    ];
    const det = a * d - b * c;
    const bytes: [number, number, number] = [data[4 * at]!, data[4 * at + 1]!, data[4 * at + 2]!];
    change(bytes, (dx * d - dy * b) / det, (dy * a - dx * c) / det);
    data.set(bytes, 4 * at);
  }
  return { ...photo, data };
}

const codes = ({ reasons }: PhotoMeasurement) => reasons.map(({ code }) => code);

/** Nothing that looks like a size may stand in a result that is not usable. */
function expectNoSize(measurement: PhotoMeasurement): void {
  expect(measurement.usable).toBe(false);
  const { outline, areaMm2: area, equivalentDiameterMm, feretMaxMm, feretMinMm, uncertaintyMm } = measurement;
  expect([outline, area, equivalentDiameterMm, feretMaxMm, feretMinMm, uncertaintyMm]).toEqual(
    new Array(6).fill(null),
  );
  for (const { code, text } of measurement.reasons) expect(`${code}: ${text}`).toMatch(/: .*: .+\.$/);
}

describe("an easy photograph", () => {
  it("is measured within its uncertainty, stage by stage", () => {
    expect(codes(usual)).toEqual([]);
    expect(Math.abs(usual.equivalentDiameterMm! - trueDiameterMm)).toBeLessThan(usual.uncertaintyMm!);
    expect(usual.uncertaintyMm).toBeLessThan(1.5);
    expect(stages).toEqual(["markers", "card", "patch", "outline", "base"]);
  });

  it("gives the same figures every time", () => {
    expect(measurePhoto(photo)).toEqual(usual);
  });

  it("is surer with the height told", () => {
    const told = measurePhoto(photo, { heightMm: 8 });
    expect(told.uncertaintyMm).toBeLessThan(usual.uncertaintyMm!);
    expect(told.height).toMatchObject({ told: true });
    expect(told.notes.map(({ code }) => code)).not.toContain("heightEstimated");
  });

  it("of a card printed 3 % too small is measured 3 % smaller", () => {
    const small = measurePhoto(photo, { cardScale: { x: 0.97, y: 0.97 } });
    expect(small.equivalentDiameterMm! / usual.equivalentDiameterMm!).toBeCloseTo(0.97, 2);
    expect(small.card).toEqual({ scaleX: 0.97, scaleY: 0.97, assumed: false });
    expect(small.notes.map(({ code }) => code)).not.toContain("scaleAssumed");
  });
});

describe("no size is given", () => {
  it("without a card", () => {
    const none = measurePhoto({ ...photo, data: new Uint8ClampedArray(photo.data.length).fill(140) });
    expect(codes(none)).toEqual(["markersHidden"]);
    expectNoSize(none);
  });

  it("with fewer than four markers in sight", () => {
    const hidden = measurePhoto(changed((bytes, x) => x < 30 && Math.abs(x) > 40 && bytes.fill(120)));
    expect(hidden.markersFound).toBe(5);
    const fewer = measurePhoto(
      changed((bytes, x, y) => (x < 30 || y < -30) && Math.hypot(x, y) > 41 && bytes.fill(120)),
    );
    expect(codes(fewer)).toEqual(["markersHidden"]);
    expectNoSize(fewer);
  });

  it("where the hole shows skin alone", () => {
    const none = measurePhoto(
      changed((bytes, x, y) => {
        const grain = 3 * Math.sin(12.9898 * x + 78.233 * y);
        if (Math.hypot(x, y) < 38) bytes.splice(0, 3, 178 + grain, 140 + grain, 115 + grain);
      }),
    );
    expect(codes(none).some((code) => ["noStoma", "noContrast"].includes(code))).toBe(true);
    expectNoSize(none);
  });

  it("where the stoma fills the hole", () => {
    const full = measurePhoto(
      changed((bytes, x, y) => {
        if (Math.hypot(x + 12, y) < 29.5) bytes.splice(0, 3, 190, 90, 85);
      }),
    );
    expect(codes(full)).toContain("touchesHole");
    expectNoSize(full);
  });

  it("in the dark", () => {
    const dark = measurePhoto(
      changed((bytes) =>
        bytes.forEach((byte, at) => {
          bytes[at] = byte * 0.16;
        }),
      ),
    );
    expect(codes(dark)).toContain("tooDark");
    expectNoSize(dark);
  });

  it("of a blurred picture", () => {
    const blurred = measurePhoto(blur(photo, 7));
    expect(codes(blurred).some((code) => ["blurred", "markersHidden"].includes(code))).toBe(true);
    expectNoSize(blurred);
  });

  it("of a picture taken at too much of a slant", () => {
    const slanted = measurePhoto(render(plainScene({ tiltDeg: 46 })));
    expect(codes(slanted)).toContain("tooTilted");
    expectNoSize(slanted);
  }, 60_000);

  it("that the clinic's protocol finds too uncertain", () => {
    const strict = measurePhoto(photo, { protocol: protocolWith({ photoMostUncertaintyMm: 0.5 }) });
    expect(codes(strict)).toEqual(["tooUncertain"]);
    expectNoSize(strict);
  });
});

describe("a frame of the camera", () => {
  it("says to hold when all is well, and what to do when it is not", () => {
    expect(liveFrame(photo)).toMatchObject({ advice: "hold" });
    expect(liveFrame(photo).markers).toHaveLength(8);
    expect(liveFrame({ ...photo, data: new Uint8ClampedArray(photo.data.length).fill(90) }).advice).toBe(
      "showCard",
    );
    const covered = changed((bytes, x, y) => x > 40 && y > 40 && bytes.fill(120));
    expect(liveFrame(covered)).toMatchObject({ advice: "showAllMarkers" });
  });

  it("says to tilt less", () => {
    expect(liveFrame(render(plainScene({ tiltDeg: 32 }))).advice).toBe("tiltLess");
  }, 60_000);
});

/** Mean over a square, twice. */
function blur({ width, height, data }: Pixels, half: number): Pixels {
  let from = Float32Array.from(data);
  for (let round = 0; round < 2; round++) {
    for (const step of [4, 4 * width]) {
      const to = new Float32Array(from.length);
      for (let at = 0; at < from.length; at++) {
        let sum = 0;
        for (let k = -half; k <= half; k++)
          sum += from[Math.min(from.length - 1, Math.max(0, at + k * step))]!;
        to[at] = sum / (2 * half + 1);
      }
      from = to;
    }
  }
  return { width, height, data: Uint8ClampedArray.from(from) };
}
