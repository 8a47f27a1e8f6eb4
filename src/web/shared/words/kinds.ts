import type {
  ChangedPart,
  ChangeReason,
  Closure,
  Construction,
  Happening,
  Kind,
  PhotoPurpose,
  SkinSign,
  StomaType,
} from "../../../record/entry/index.ts";

/** The trade's words for what the record keeps as codes. */
export const kindWords: Record<Kind, string> = {
  clinic: "Clinic details",
  protocolSet: "Protocol value",
  person: "Details",
  stoma: "Stoma",
  measured: "Measurement",
  cut: "Opening cut",
  fitted: "Pouching system",
  changed: "Change",
  event: "Event",
  noted: "Note",
  skin: "Skin",
  consented: "Consent",
  sited: "Siting",
  advised: "Cutting sheet",
};

export const stomaTypeWords: Record<StomaType, string> = {
  ileostomy: "ileostomy",
  colostomy: "colostomy",
  urostomy: "urostomy",
  fistula: "fistula",
  other: "other stoma",
};

export const constructionWords: Record<Construction, string> = {
  end: "end",
  loop: "loop",
  doubleBarrel: "double-barrel",
  conduit: "conduit",
  other: "other construction",
};

export const changedPartWords: Record<ChangedPart, string> = {
  barrier: "Barrier (whole change)",
  pouchOnly: "Pouch only",
  cap: "Cap",
  nightBag: "Night bag",
};

export const changeReasonWords: Record<ChangeReason, string> = {
  planned: "Planned",
  leakPastEdge: "Leak past the edge",
  leakUnderBarrier: "Leak under the barrier",
  itchOrLifting: "Itch or lifting",
  other: "Another reason",
};

export const closureWords: Record<Closure, string> = {
  drainable: "Drainable",
  closed: "Closed",
  tap: "Tap",
};

export const happeningWords: Record<Happening, string> = {
  died: "Died",
  reversed: "Stoma reversed",
  revised: "Stoma revised",
  admitted: "Admitted to hospital",
  discharged: "Discharged from hospital",
  pregnancy: "Pregnancy",
  hernia: "Hernia",
  chemotherapy: "Chemotherapy",
  medicine: "Medicine changed",
  irrigation: "Irrigation",
  movedAway: "Moved away",
};

/** Each by itself; the order is that of the list they are chosen from, and means nothing. */
export const skinSignWords: Record<SkinSign, string> = {
  redderOrDarker: "redder or darker than the skin around",
  moistAndPale: "moist and pale",
  spots: "spots",
  blister: "blister",
  surfaceGone: "surface gone",
  deepLoss: "deep loss of skin",
  bleeding: "bleeding",
  raisedFlesh: "raised flesh",
  bruise: "bruise",
};

export const photoPurposeWords: Record<PhotoPurpose, string> = {
  keep: "keep photographs in the record, to compare",
  showColleagues: "show them to colleagues for advice",
  teach: "use them for teaching",
};

/** "end ileostomy", "loop colostomy", "fistula" */
export function stomaWords(type: string, construction: string): string {
  const typed = stomaTypeWords[type as StomaType] ?? type;
  if (construction === "other" || construction === "") return typed;
  const built = constructionWords[construction as Construction] ?? construction;
  return construction === "conduit" && type === "urostomy" ? "urostomy, conduit" : `${built} ${typed}`;
}
