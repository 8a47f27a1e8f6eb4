import { createRequire } from "node:module";
import type cv from "@techstark/opencv-js";
import { beforeAll, expect, it } from "vitest";
import { recoveryKeyPage } from "../../src/documents/index.ts";
import { groupsOf, newRecoveryKey, readKey } from "../../src/record/keys/index.ts";
import { describePrinted, render, textByPage } from "./poppler.ts";

describePrinted("the printed recovery key", () => {
  let key: string;
  let pdf: Buffer;
  beforeAll(async () => {
    key = (await newRecoveryKey()).identity;
    const recordId = "8728edb7-4b06-4648-aab4-0db5868208ef";
    pdf = await recoveryKeyPage({ paper: "A4", groups: groupsOf(key), recordId, madeOn: "2026-11-25" });
  });

  it("can be typed from the page: its groups, in reading order, are the key", async () => {
    const [text] = textByPage(pdf);
    const typed = text!.slice(text!.indexOf("AGE-SECRET"), text!.indexOf("What it is for"));
    expect(await readKey(typed)).toBe(key);
    expect(text).toContain("8728edb7-4b06-4648-aab4-0db5868208ef");
  });

  it("can be scanned from the page: a reader that is not ours finds the key in its square", async () => {
    const cv = await readyReader();
    const { width, height, pixels } = render(pdf, 1, 150);
    const page = cv.matFromArray(height, width, cv.CV_8UC1, [...pixels]);
    const reader = new cv.QRCodeDetector();
    expect((reader as unknown as SquareReader).detectAndDecode(page)).toBe(key);
    page.delete();
    reader.delete();
  });

  it("is one page on either paper", async () => {
    for (const paper of ["A4", "Letter"] as const) {
      const page = await recoveryKeyPage({
        paper,
        groups: groupsOf(key),
        recordId: "r",
        madeOn: "2026-11-25",
      });
      expect(textByPage(page)).toHaveLength(1);
    }
  });
});

/** As the library has it, which its types do not say. */
interface SquareReader {
  detectAndDecode(image: cv.Mat): string;
}

/** The module is a promise of itself, which `import` cannot hand on. */
async function readyReader(): Promise<typeof cv> {
  return createRequire(import.meta.url)("@techstark/opencv-js");
}
