import { defineProtocol } from "./definition.ts";

const quickReference =
  "Stoma site marking procedure quick reference (WOCN): at least 2 inches; 50 mm is how 50.8 mm is usually said";
const sacrifice =
  "No source ranks them; chosen so that what makes a barrier leak, and what hides the stoma, goes last";

/** How far a marked site stays from what would spoil it, and what is given up first where all cannot be kept. */
export const sitingProtocol = defineProtocol({
  siteNavelMm: clearance("the navel", 50, quickReference, "read in the source"),
  siteBoneMm: clearance("hip bones, ribs and pubis", 50, quickReference, "read in the source"),
  siteScarMm: clearance("a scar", 50, quickReference, "read in the source"),
  siteCreaseMm: clearance("a crease", 50, quickReference, "read in the source"),
  siteFoldMm: clearance("a fold or valley", 50, quickReference, "read in the source"),
  siteHerniaMm: clearance(
    "a hernia",
    50,
    "No source gives a distance; as from other unevenness",
    "judgement",
  ),
  siteProsthesisMm: clearance(
    "where a prosthesis lies",
    50,
    "Sources say to avoid devices without a distance; half of a usual barrier",
    "judgement",
  ),
  siteBraceMm: clearance(
    "where a brace lies",
    50,
    "Sources say to avoid braces without a distance; half of a usual barrier",
    "judgement",
  ),
  siteBeltMm: clearance(
    "the belt line",
    25,
    "Off the waistband (WOCN and ASCRS); no distance found: half a belt and half a stoma",
    "from memory",
  ),
  siteRadiationMm: clearance(
    "the edge of a radiation field",
    10,
    "Outside the field; no distance found",
    "judgement",
  ),
  siteOtherMm: clearance("anything else marked to avoid", 50, "As from scars and creases", "judgement"),
  siteMidlineMostMm: {
    ...clearance("the midline, at most", 50, quickReference, "read in the source"),
    label: "Stay away from the midline by at most",
  },
  siteMidlineShareOfHip: {
    label: "From the midline: this share of the distance from hip bone to hip bone",
    unit: "share",
    default: 0.12,
    min: 0.02,
    max: 0.4,
    source:
      "50 mm from the midline and the middle of the muscle together fail many adults and every infant: 0.12 is 30 mm at 250 mm from hip to hip",
    certainty: "judgement",
  },
  siteMidlineShareOfMuscle: {
    label: "From the midline where no hip bones are marked: this share of the muscle's outer reach",
    unit: "share",
    default: 0.4,
    min: 0.05,
    max: 0.8,
    source: "About as much as the share of the hip distance gives where both are known",
    certainty: "judgement",
  },
  siteSmallBodyHipMm: {
    label: "Below this distance from hip bone to hip bone, clearances shrink with the body",
    unit: "mm",
    default: 180,
    min: 0,
    max: 260,
    source: "The 50 mm of the guidelines are for adults; an infant's whole abdomen is about twice as wide",
    certainty: "judgement",
  },
  siteMuscleEdgeMm: clearance(
    "the muscle's edge, inside it",
    0,
    "Inside the borders of rectus abdominis (quick reference, WOCN); no margin is given",
    "read in the source",
  ),
  siteUnseenMm: clearance(
    "what the person cannot see",
    0,
    "In the person's own line of sight (WOCN quick reference; CUA 2022 table 2); no margin is given",
    "read in the source",
  ),
  siteUnreachedMm: clearance(
    "what the person cannot reach",
    0,
    "Dexterity is part of the choice (CUA 2022 table 2); no margin is given",
    "read in the source",
  ),
  siteMidMuscleShare: {
    label: "Mid-muscle: the middle part of the muscle's width that counts as its middle",
    unit: "share",
    default: 0.1,
    min: 0.02,
    max: 0.6,
    source: "Ideally mid-way between medial and lateral edge (quick reference, WOCN); the width is ours",
    certainty: "judgement",
  },
  siteApartMm: {
    label: "Second and third places lie at least this far from better ones",
    unit: "mm",
    default: 40,
    min: 5,
    max: 150,
    source: "Far enough that a surgeon gains by the choice",
    certainty: "judgement",
  },
  siteLevelsMm: {
    label: "Two stomas: difference in level",
    unit: "mm",
    default: 50,
    min: 10,
    max: 150,
    source: "CUA 2022: different horizontal lines, because of the belt; the distance is ours",
    certainty: "judgement",
  },
  siteFlatAcrossMm: {
    label: "Even skin round the mark, across, at least",
    unit: "mm",
    default: 50,
    min: 20,
    max: 120,
    source: "WOCN and ASCRS: room for the barrier, about 50 to 75 mm",
    certainty: "from memory",
  },
  siteHipLevelShare: {
    label: "Before it is marked: hip bones lie below the navel by this share of the way to the pubis",
    unit: "share",
    default: 0.45,
    min: 0,
    max: 1,
    source: "A starting place to be moved; no source",
    certainty: "judgement",
  },
  siteRibAngleDeg: {
    label: "Before it is marked: angle between each rib margin and the level",
    unit: "degrees",
    default: 45,
    min: 10,
    max: 80,
    source: "A starting line to be moved; no source",
    certainty: "judgement",
  },
  giveUpMidline: givenUp("Midline", 1),
  giveUpBelt: givenUp("Belt line", 2),
  giveUpNavel: givenUp("Navel", 3),
  giveUpOther: givenUp("Anything else to avoid", 4),
  giveUpScar: givenUp("Scars", 5),
  giveUpRadiation: givenUp("Radiation fields", 6),
  giveUpBrace: givenUp("Braces", 7),
  giveUpProsthesis: givenUp("Prostheses", 8),
  giveUpBone: givenUp("Bones", 9),
  giveUpFold: givenUp("Folds", 10),
  giveUpCrease: givenUp("Creases", 11),
  giveUpHernia: givenUp("Hernias", 12),
  giveUpLevel: givenUp("Another level than the other stoma", 13),
  giveUpStoma: givenUp("Room beside the other stoma", 14),
  giveUpMuscle: givenUp("Muscle", 15),
  giveUpReach: givenUp("Reach", 16),
  giveUpSight: givenUp("Sight", 17),
});

function clearance(
  from: string,
  value: number,
  source: string,
  certainty: "read in the source" | "from memory" | "judgement",
) {
  return {
    label: `Stay away from ${from}, by`,
    unit: "mm",
    default: value,
    min: 0,
    max: 150,
    source,
    certainty,
  };
}

function givenUp(what: string, place: number) {
  return {
    label: `${what}: place in the order in which limits are given up, lowest first`,
    unit: "place",
    default: place,
    min: 1,
    max: 30,
    source: sacrifice,
    certainty: "judgement" as const,
  };
}
