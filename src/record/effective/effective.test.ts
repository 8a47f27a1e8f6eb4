import { describe, expect, it } from "vitest";
import { entry, round, samplePerson, stored } from "../../../test/record/samples.ts";
import type { Entry } from "../entry/index.ts";
import { resolve, standing } from "./index.ts";

const { about } = samplePerson();
const measured = (diameterMm: number, corrects?: Entry["corrects"]) =>
  entry("measured", round(diameterMm), { ...about, corrects, reason: corrects && "misread" });

describe("what holds now", () => {
  const first = measured(32);
  const second = measured(34, { id: first.id, as: "replace" });
  const third = measured(35, { id: second.id, as: "replace" });

  it("is the last correction of a chain, with all that was written kept beside it", () => {
    const [one, another] = resolve(stored([first, second, third]));
    expect(another).toBeUndefined();
    expect(one).toMatchObject({ retracted: false, disputed: false });
    expect(one?.entry.id).toBe(third.id);
    expect(one?.first.id).toBe(first.id);
    expect(one?.corrections.map(({ id }) => id)).toEqual([second.id, third.id]);
  });

  it("does not hang on the order in which entries are handed over", () => {
    const entries = stored([first, second, third]);
    expect(resolve([...entries].reverse())).toEqual(resolve(entries));
  });

  it("is nothing once it was taken back, and something again once that was corrected", () => {
    const back = measured(32, { id: first.id, as: "retract" });
    expect(standing(resolve(stored([first, back])), "measured")).toEqual([]);
    const again = measured(33, { id: back.id, as: "replace" });
    expect(standing(resolve(stored([first, back, again])), "measured")[0]?.entry.id).toBe(again.id);
  });

  it("is disputed where two corrections name the same entry: both are kept", () => {
    const rival = measured(36, { id: first.id, as: "replace" });
    const [one] = resolve(stored([first, second, rival]));
    expect(one).toMatchObject({ disputed: true });
    expect(one?.corrections).toHaveLength(2);
  });

  it("is the correction itself where what it corrects is not there", () => {
    const [one] = resolve(stored([second]));
    expect(one?.first.id).toBe(second.id);
  });

  it("does not follow a correction that was committed before what it names", () => {
    const [a, b] = [measured(30), measured(31)];
    const loop = [
      { ...a, corrects: { id: b.id, as: "replace" as const } },
      { ...b, corrects: { id: a.id, as: "replace" as const } },
    ];
    expect(resolve(stored(loop))).toHaveLength(1);
  });
});
