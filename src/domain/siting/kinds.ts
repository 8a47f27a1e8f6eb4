import type { ProtocolKey } from "../protocol/index.ts";

/** Postures in which a site is looked at; `usual` is the person's own chair, aid or way to sit. */
export const sitingPostures = ["lying", "sitting", "bending", "standing", "usual"] as const;
export type SitingPosture = (typeof sitingPostures)[number];

/** Postures without which a marking is not done. */
export const neededPostures = ["lying", "sitting", "bending", "standing"] as const;

export const landmarkKinds = [
  "navel",
  "midline",
  "muscle",
  "hipBone",
  "bone",
  "scar",
  "crease",
  "fold",
  "beltLine",
  "hernia",
  "radiation",
  "prosthesis",
  "brace",
  "sightLimit",
  "reachLimit",
  "otherStoma",
  "avoid",
] as const;
export type LandmarkKind = (typeof landmarkKinds)[number];

/** What a place is held to: a landmark kind, or being on another level than the other stoma. */
export type RuleKind = LandmarkKind | "otherLevel";

interface KindFacts {
  /** As said after "from": the noun alone. */
  word: string;
  /** Where its clearance stands in the protocol; null where it follows from the barriers. */
  limit: ProtocolKey | null;
  giveUp: ProtocolKey;
  /** One of those that the guideline names together: the asked clearance stands for all of them. */
  general?: true;
  /** Skin that is not even: a barrier does not lie flat over it. */
  uneven?: true;
}

export const kindFacts: Record<RuleKind, KindFacts> = {
  navel: { word: "navel", limit: "siteNavelMm", giveUp: "giveUpNavel", general: true, uneven: true },
  midline: { word: "midline", limit: "siteMidlineMostMm", giveUp: "giveUpMidline" },
  muscle: { word: "muscle's edge", limit: "siteMuscleEdgeMm", giveUp: "giveUpMuscle" },
  hipBone: { word: "hip bone", limit: "siteBoneMm", giveUp: "giveUpBone", general: true, uneven: true },
  bone: { word: "bone", limit: "siteBoneMm", giveUp: "giveUpBone", general: true, uneven: true },
  scar: { word: "scar", limit: "siteScarMm", giveUp: "giveUpScar", general: true, uneven: true },
  crease: { word: "crease", limit: "siteCreaseMm", giveUp: "giveUpCrease", general: true, uneven: true },
  fold: { word: "fold", limit: "siteFoldMm", giveUp: "giveUpFold", general: true, uneven: true },
  beltLine: { word: "belt line", limit: "siteBeltMm", giveUp: "giveUpBelt" },
  hernia: { word: "hernia", limit: "siteHerniaMm", giveUp: "giveUpHernia", uneven: true },
  radiation: { word: "radiation field", limit: "siteRadiationMm", giveUp: "giveUpRadiation" },
  prosthesis: { word: "prosthesis", limit: "siteProsthesisMm", giveUp: "giveUpProsthesis" },
  brace: { word: "brace", limit: "siteBraceMm", giveUp: "giveUpBrace" },
  sightLimit: { word: "what is out of sight", limit: "siteUnseenMm", giveUp: "giveUpSight" },
  reachLimit: { word: "what is out of reach", limit: "siteUnreachedMm", giveUp: "giveUpReach" },
  otherStoma: { word: "other stoma", limit: null, giveUp: "giveUpStoma" },
  otherLevel: { word: "level of the other stoma", limit: "siteLevelsMm", giveUp: "giveUpLevel" },
  avoid: { word: "marked spot", limit: "siteOtherMm", giveUp: "giveUpOther" },
};
