import { describe, expect, it } from "vitest";
import { Turns } from "./turns.ts";

const later = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

describe("taking turns", () => {
  it("lets work on one thing follow each other, in the order in which it came", async () => {
    const turns = new Turns();
    const seen: string[] = [];
    const work = (name: string, ms: number) => async () => {
      seen.push(`${name} begins`);
      await later(ms);
      seen.push(`${name} ends`);
      return name;
    };
    const done = await Promise.all([turns.take("a", work("first", 20)), turns.take("a", work("second", 1))]);
    expect(done).toEqual(["first", "second"]);
    expect(seen).toEqual(["first begins", "first ends", "second begins", "second ends"]);
  });

  it("lets work on other things go on, and what failed hold up nothing", async () => {
    const turns = new Turns();
    let other = false;
    const failing = turns.take("a", async () => {
      await later(10);
      expect(other).toBe(true);
      throw new Error("no");
    });
    const next = turns.take("a", async () => "done");
    await turns.take("b", async () => {
      other = true;
    });
    await expect(failing).rejects.toThrow("no");
    expect(await next).toBe("done");
  });
});
