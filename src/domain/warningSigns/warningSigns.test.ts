import { describe, expect, it } from "vitest";
import { levels } from "../note.ts";
import { protocolWith } from "../protocol/index.ts";
import { questionsIn } from "./condition.ts";
import {
  type Answers,
  type QuestionKey,
  questionKeys,
  questionOf,
  type StomaType,
  stomaTypes,
  type WarningInput,
  type WarningSign,
  warningLevel,
  warningSigns,
} from "./index.ts";

/** How a row is rehearsed: it holds, each of the next does not, and a number decides at its limit. */
interface Rehearsal {
  stomaType: StomaType;
  holds: Answers;
  fails: Answers[];
  /** The number, the last value that does not hold, and the first that does. */
  edges?: [question: QuestionKey, fails: number, holds: number][];
}

const end = (holds: Answers, fails: Answers[] = [{}], edges?: Rehearsal["edges"]): Rehearsal => ({
  stomaType: "ileostomy",
  holds,
  fails,
  edges,
});
const colostomy = (...rest: Parameters<typeof end>): Rehearsal => ({
  ...end(...rest),
  stomaType: "colostomy",
});
const urostomy = (...rest: Parameters<typeof end>): Rehearsal => ({ ...end(...rest), stomaType: "urostomy" });

const rehearsals: Record<string, Rehearsal> = {
  stomaColour: end({ stomaColour: "black" }, [{ stomaColour: "redOrPink" }]),
  bleedingHeavy: end({ bleeding: "fromInside", dizzyOnStanding: true }, [
    { bleeding: "fromInside", dizzyOnStanding: false },
    { bleeding: "onWiping", dizzyOnStanding: true },
  ]),
  bleedingWithLiverDisease: end({ liverDisease: true, bleeding: "atJunction" }, [
    { liverDisease: true, bleeding: "onWiping" },
    { liverDisease: false, bleeding: "atJunction" },
  ]),
  bleedingCut: end({ deepCut: true, bleeding: "notStopping" }, [{ deepCut: true, bleeding: "none" }]),
  bleedingNotStopping: end({ bleeding: "notStopping" }, [{ bleeding: "onWiping" }]),
  bleedingAtJunction: end({ bleeding: "atJunction" }, [{ bleeding: "onWiping" }]),
  deepCut: end({ deepCut: true }, [{ deepCut: false }]),
  oozeOnWiping: end({ bleeding: "onWiping" }, [{ bleeding: "none" }]),
  ileostomyNoOutputVomiting: end(
    { hoursSinceOutput: 2, vomiting: true },
    [{ hoursSinceOutput: 2, vomiting: false, swollenBelly: false }],
    [["hoursSinceOutput", 1.9, 2]],
  ),
  vomitingAndSwollen: end({ vomiting: true, swollenBelly: true }, [{ vomiting: true, swollenBelly: false }]),
  // American Cancer Society: more than 2 hours of pain without output, and nobody reached
  painNobodyReached: end(
    { nobodyReached: true, painHours: 2.1, hoursSinceOutput: 2.1 },
    [{ nobodyReached: false, painHours: 3, hoursSinceOutput: 3 }],
    [
      ["painHours", 2, 2.1],
      ["hoursSinceOutput", 2, 2.1],
    ],
  ),
  colostomyNoOutputVomiting: colostomy(
    { hoursSinceOutput: 24, swollenBelly: true },
    [{ hoursSinceOutput: 24, vomiting: false, swollenBelly: false }],
    [["hoursSinceOutput", 23.9, 24]],
  ),
  partialBlockageVomiting: end({ thinFoulOutput: true, vomiting: true, cramp: true }, [
    { thinFoulOutput: true, vomiting: false, cramp: true },
  ]),
  // American Cancer Society: no output for 4 to 6 hours with cramps
  ileostomyNoOutputCramp: end(
    { hoursSinceOutput: 4, cramp: true },
    [{ hoursSinceOutput: 4, cramp: false, bellyPain: false, nausea: false }],
    [["hoursSinceOutput", 3.9, 4]],
  ),
  ileostomyNoOutput: end({ hoursSinceOutput: 8 }, [{}], [["hoursSinceOutput", 7.9, 8]]),
  colostomyPainNoOutput: colostomy(
    { cramp: true, hoursSinceOutput: 2.1 },
    [{ cramp: false, bellyPain: false, hoursSinceOutput: 2.1 }],
    [["hoursSinceOutput", 2, 2.1]],
  ),
  colostomyNoOutputLong: colostomy({ hoursSinceOutput: 72 }, [{}], [["hoursSinceOutput", 71, 72]]),
  colostomyNoOutput: colostomy({ hoursSinceOutput: 48 }, [{}], [["hoursSinceOutput", 47, 48]]),
  partialBlockage: end({ thinFoulOutput: true, swollenStoma: true }, [
    { thinFoulOutput: false, swollenStoma: true },
    { thinFoulOutput: true, cramp: false, swollenStoma: false, swollenBelly: false, darkScantUrine: false },
  ]),
  vomiting: end({ vomiting: true }, [{ vomiting: false }]),
  faintedOrConfused: end({ confused: true }, [{ confused: false, fainted: false }]),
  highOutputUnwell: end(
    { outputMl: 1500, fastHeart: true },
    [{ outputMl: 1500, fastHeart: false, noUrine: false }],
    [["outputMl", 1499, 1500]],
  ),
  outputUrgent: end({ outputMl: 3001 }, [{}], [["outputMl", 3000, 3001]]),
  outputVeryHigh: end({ outputMl: 2000 }, [{}], [["outputMl", 1999, 2000]]),
  highOutputDrying: end(
    { outputMl: 1500, urineMl: 799 },
    [{ outputMl: 1500, thirst: false, dizzyOnStanding: false, darkScantUrine: false }],
    [
      ["outputMl", 1499, 1500],
      ["urineMl", 800, 799],
    ],
  ),
  manyHalfFullEmpties: end({ halfFullEmpties: 6 }, [{}], [["halfFullEmpties", 5, 6]]),
  wateryOutput: end({ wateryHours: 5.1 }, [{}], [["wateryHours", 5, 5.1]]),
  dryingOut: end({ dizzyOnStanding: true, thirst: true }, [
    { dizzyOnStanding: true, thirst: false, darkScantUrine: false, fastHeart: false },
  ]),
  noUrineToday: end({ noUrine: true }, [{ noUrine: false }]),
  muchWeightLost: end({ weightLossPercent: 5 }, [{}], [["weightLossPercent", 4.9, 5]]),
  prolapseInTrouble: end({ prolapse: "known", prolapseHardOrPainful: true }, [
    { prolapse: "known", prolapseHardOrPainful: false, stomaColour: "redOrPink" },
    { prolapse: "none", prolapseHardOrPainful: true },
  ]),
  bulgeInTrouble: end({ bulge: true, bulgeSeverePain: true }, [
    { bulge: true, bulgeSeverePain: false, bulgeHard: false, vomiting: false, stomaColour: "redOrPink" },
  ]),
  bulgeOrProlapseNoOutput: end(
    { bulge: true, hoursSinceOutput: 4 },
    [{ bulge: false, prolapse: "none", hoursSinceOutput: 4 }],
    [["hoursSinceOutput", 3.9, 4]],
  ),
  bulgeOrProlapseNoOutputColostomy: colostomy(
    { prolapse: "known", hoursSinceOutput: 48 },
    [{ bulge: false, prolapse: "none", hoursSinceOutput: 48 }],
    [["hoursSinceOutput", 47, 48]],
  ),
  separationDeep: end(
    { separation: "deep", temperatureCelsius: 38 },
    [{ separation: "shallow", temperatureCelsius: 38, bellyPain: true }],
    [["temperatureCelsius", 37.9, 38]],
  ),
  separation: end({ separation: "shallow" }, [{ separation: "none" }]),
  retractionEarly: end({ sunkBelowSkin: true, leaking: true }, [
    { sunkBelowSkin: true, leaking: false, bellyPain: false },
  ]),
  narrow: end({ thinStream: true }, [{ thinStream: false }]),
  rodOrStent: end({ rodMoved: true }, [{ rodMoved: false, stentOut: false }]),
  prolapseNew: end({ prolapse: "new" }, [{ prolapse: "none" }]),
  prolapseKnown: end({ prolapse: "known" }, [{ prolapse: "none" }]),
  bulge: end({ bulge: true }, [{ bulge: false }]),
  retraction: end({ sunkBelowSkin: true }, [{ sunkBelowSkin: false }]),
  sepsis: end(
    { temperatureCelsius: 38, confused: true },
    [{ temperatureCelsius: 38, confused: false, fastBreath: false, fainted: false, mottledSkin: false }],
    [["temperatureCelsius", 37.9, 38]],
  ),
  fever: end({ temperatureCelsius: 38 }, [{}], [["temperatureCelsius", 37.9, 38]]),
  urostomyDryLong: urostomy({ hoursSinceUrine: 4 }, [{}], [["hoursSinceUrine", 3.9, 4]]),
  urostomyDryUnwell: urostomy(
    { hoursSinceUrine: 1, temperatureCelsius: 38 },
    [{ hoursSinceUrine: 1, flankPain: false, vomiting: false, temperatureCelsius: 37 }],
    [
      ["hoursSinceUrine", 0.9, 1],
      ["temperatureCelsius", 37.9, 38],
    ],
  ),
  urostomySepsis: urostomy(
    { temperatureCelsius: 38, flankPain: true },
    [{ temperatureCelsius: 38, flankPain: false, shivering: false }],
    [["temperatureCelsius", 37.9, 38]],
  ),
  urostomyAcid: urostomy({ drowsy: true }, [{ drowsy: false, overBreathing: false }]),
  urostomyDry: urostomy({ hoursSinceUrine: 2 }, [{}], [["hoursSinceUrine", 1.9, 2]]),
  bloodyUrine: urostomy({ bloodyUrine: true }, [{ bloodyUrine: false }]),
  cloudyUrine: urostomy({ cloudyOrSmelly: true }, [{ cloudyOrSmelly: false }]),
  crystals: urostomy({ crystals: true }, [{ crystals: false }]),
  skinOpen: end({ skinOpenOrWeeping: true }, [{ skinOpenOrWeeping: false, cannotKeepSeal: false }]),
  violetUlcer: end({ violetUlcer: true }, [{ violetUlcer: false }]),
  itchyRash: end({ itchyRashWithSpots: true }, [{ itchyRashWithSpots: false }]),
  selfHarm: end({ selfHarm: true }, [{ selfHarm: false }]),
  chestOrLeg: end({ oneLegSwollen: true }, [
    { oneLegSwollen: false, chestPain: false, shortOfBreath: false },
  ]),
  lowMoodWorse: end(
    { lowMoodDays: 14, moodGettingWorse: true },
    [{ lowMoodDays: 14, moodGettingWorse: false }],
    [["lowMoodDays", 13, 14]],
  ),
  lowMood: end({ lowMoodDays: 14 }, [{ avoidsStoma: false, staysIn: false }], [["lowMoodDays", 13, 14]]),
};

const held = (stomaType: StomaType, answers: Answers, more: Partial<WarningInput> = {}) =>
  warningLevel({ stomaType, answers, ...more });
const ids = (...input: Parameters<typeof held>) => held(...input).signs.map(({ id }) => id);
const rowNamed = (id: string) => warningSigns.find((row) => row.id === id)!;

describe("every warning sign", () => {
  it("is rehearsed, once", () => {
    expect(Object.keys(rehearsals).sort()).toEqual(warningSigns.map(({ id }) => id).sort());
  });

  describe.each(warningSigns.map((row) => [row.id, row] as const))("%s", (id, row) => {
    const { stomaType, holds, fails, edges } = rehearsals[id]!;

    it("holds, at its own level or a more urgent one", () => {
      const { level, signs } = held(stomaType, holds);
      const sign = signs.find((one) => one.id === id)!;
      expect(sign.level).toBe(row.level);
      expect(levels.indexOf(level!)).toBeLessThanOrEqual(levels.indexOf(row.level));
      expect(sign.because.map(({ question }) => question).sort()).toEqual(
        expect.arrayContaining(Object.keys(holds).sort()),
      );
    });

    it("does not hold otherwise, nor where nothing was asked", () => {
      for (const answers of [{}, ...fails]) expect(ids(stomaType, answers)).not.toContain(id);
    });

    it.each(edges ?? [])("has both sides of its limit: %s %d not, %d yes", (question, below, at) => {
      expect(ids(stomaType, { ...holds, [question]: below })).not.toContain(id);
      expect(ids(stomaType, { ...holds, [question]: at })).toContain(id);
    });

    it("says what it is, what to do and where it comes from, with the protocol's values put in", () => {
      const { sign, act, source } = held(stomaType, holds).signs.find((one) => one.id === id)!;
      for (const words of [sign, act, source]) {
        expect(words.length).toBeGreaterThan(6);
        expect(words).not.toMatch(/[{}]/);
      }
      expect(act).toMatch(/^[A-Z][^.]+[.;]?/);
    });

    it("is about the types of stoma that it names, and no other", () => {
      for (const type of stomaTypes)
        expect(ids(type, holds).includes(id)).toBe(
          row.stomaTypes === undefined || row.stomaTypes.includes(type),
        );
    });

    it("has every number of its condition rehearsed at its limit", () => {
      const numbers = questionsIn(row.when).filter((key) => questionOf(key).kind === "number");
      const rehearsed = new Set((edges ?? []).map(([question]) => question));
      const elsewhere = new Set(["weightLossPercent", "hoursSinceOutput", "temperatureCelsius"]);
      for (const key of numbers)
        expect(rehearsed.has(key) || (elsewhere.has(key) && rehearsed.size > 0)).toBe(true);
    });
  });
});

describe("retraction", () => {
  it("is early through day 14; where nobody knows the day, it counts as early", () => {
    const answers = { sunkBelowSkin: true, leaking: true };
    const level = (daysSinceSurgery?: number) => held("colostomy", answers, { daysSinceSurgery }).level;
    expect([14, 15, undefined].map(level)).toEqual(["sameDay", "nextContact", "sameDay"]);
  });
});

describe("lost weight beside a high output", () => {
  it("counts from 2 %", () => {
    const at = (weightLossPercent: number) => ids("ileostomy", { outputMl: 1500, weightLossPercent });
    expect([at(1.9).includes("highOutputDrying"), at(2).includes("highOutputDrying")]).toEqual([false, true]);
  });
});

describe("irrigation", () => {
  const answers = { hoursSinceOutput: 80, prolapse: "known" };

  it("makes no output alone no sign", () => {
    expect(ids("colostomy", answers)).toEqual(
      expect.arrayContaining([
        "bulgeOrProlapseNoOutputColostomy",
        "colostomyNoOutputLong",
        "colostomyNoOutput",
      ]),
    );
    expect(ids("colostomy", answers, { irrigates: true })).toEqual(["prolapseKnown"]);
  });

  it("mutes no sign of pain or vomiting", () => {
    const unwell = { hoursSinceOutput: 30, vomiting: true, cramp: true };
    expect(ids("colostomy", unwell, { irrigates: true })).toEqual(
      expect.arrayContaining(["colostomyNoOutputVomiting", "colostomyPainNoOutput", "vomiting"]),
    );
  });
});

describe("the level", () => {
  const usualNumbers: Answers = { urineMl: 1500, temperatureCelsius: 36.6 };
  const well: Answers = Object.fromEntries(
    questionKeys.map((key) => {
      const question = questionOf(key);
      if (question.kind === "yesNo") return [key, false];
      if (question.kind === "choice") return [key, Object.keys(question.choices)[0]!];
      return [key, usualNumbers[key] ?? 0];
    }),
  );

  it.each(stomaTypes)("of a well person with every question asked is none: %s", (stomaType) => {
    const { level, signs, notAsked } = held(stomaType, well);
    expect([level, signs, notAsked]).toEqual(["none", [], []]);
  });

  it.each(stomaTypes)("is never none while a question that could raise it was not asked: %s", (stomaType) => {
    const used = new Set(
      warningSigns
        .filter((row) => row.stomaTypes === undefined || row.stomaTypes.includes(stomaType))
        .flatMap(({ when }) => questionsIn(when)),
    );
    expect(held(stomaType, {}).level).toBeNull();
    expect(
      held(stomaType, {})
        .notAsked.map(({ question }) => question)
        .sort(),
    ).toEqual([...used].sort());
  });

  it("one sign to act on now is enough, and the most urgent comes first", () => {
    const { level, signs } = held("ileostomy", { bleeding: "onWiping", deepCut: true, selfHarm: true });
    expect(level).toBe("now");
    expect(signs.map((sign) => sign.level)).toEqual(["now", "sameDay", "nextContact"]);
  });

  it("is never lowered by an answer left out, nor raised by one", () => {
    for (const [id, { stomaType, holds }] of Object.entries(rehearsals)) {
      const full = held(stomaType, { ...well, ...holds });
      const sparse = held(stomaType, holds);
      expect([id, sparse.level]).toEqual([id, full.level]);
    }
  });

  it("is not dropped by any further answer", () => {
    for (const { stomaType, holds } of Object.values(rehearsals)) {
      const before = levels.indexOf(held(stomaType, holds).level!);
      for (const key of questionKeys) {
        if (key in holds) continue;
        const after = held(stomaType, { ...holds, [key]: well[key]! }).level!;
        expect(levels.indexOf(after)).toBeLessThanOrEqual(before);
      }
    }
  });

  it("leaves out of what was not asked what cannot raise it any more", () => {
    expect(held("ileostomy", { selfHarm: true }).notAsked).toEqual([]);
    const { notAsked } = held("ileostomy", { deepCut: true });
    expect(new Set(notAsked.map(({ couldRaiseTo }) => couldRaiseTo))).toEqual(new Set(["now"]));
  });

  it("moves with the protocol, and the words with it", () => {
    const protocol = protocolWith({ noOutputCrampHours: 3 });
    const input = { stomaType: "ileostomy", answers: { hoursSinceOutput: 3, cramp: true } } as const;
    expect(warningLevel(input).signs).toEqual([]);
    expect(warningLevel(input, protocol).signs[0]!.sign).toContain("3 hours");
  });

  it("comes from the clinic's own rows where it has them", () => {
    const own: WarningSign = { ...rowNamed("crystals"), stomaTypes: undefined, level: "sameDay" };
    const { level } = held("colostomy", { crystals: true, selfHarm: true }, { signs: [own] });
    expect(level).toBe("sameDay");
  });
});

describe("words", () => {
  it("never tell anybody with a high output to drink water", () => {
    for (const { act } of warningSigns) expect(act).not.toMatch(/drink (more|plenty|water)/i);
  });

  it("never offer a laxative or something that binds where a blockage may be", () => {
    for (const { act } of warningSigns)
      if (/laxative|binds|thicken/i.test(act)) expect(act).toMatch(/Take no laxative|Take nothing that/);
  });

  it("name no value that does not exist, and every question is asked by some row", () => {
    const asked = new Set(warningSigns.flatMap(({ when }) => questionsIn(when)));
    expect([...questionKeys].filter((key) => !asked.has(key))).toEqual([]);
  });
});
