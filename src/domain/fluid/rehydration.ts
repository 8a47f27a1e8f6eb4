import { type Note, note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { molarMassGPerMol, type Substance } from "./molarMass.ts";

/** Grams made up to one litre; what is left out is not in it. */
export type GramsPerL = Partial<Record<Substance, number>>;

export interface RehydrationInput {
  gramsPerL: GramsPerL;
}

/** A limit is met where the value lies within it; both are shown. */
export interface Limit {
  met: boolean;
  value: number;
  least: number;
  most: number;
}

export interface Rehydration {
  sodiumMmolPerL: number;
  chlorideMmolPerL: number;
  potassiumMmolPerL: number;
  glucoseMmolPerL: number;
  citrateMmolPerL: number;
  bicarbonateMmolPerL: number;
  sucroseMmolPerL: number;
  /** Sum of all that is dissolved, as if wholly apart; a measured osmolality is a few per cent lower. */
  osmolarityMosmPerL: number;
  meets: {
    /** The glucose-saline drink advised for a high output. */
    highOutputDrink: { met: boolean; sodium: Limit; glucose: Limit };
    /** What the WHO accepts of oral rehydration salts. */
    whoRehydrationSalts: {
      met: boolean;
      osmolarity: Limit;
      sodium: Limit;
      glucose: Limit;
      potassium: Limit;
      citrate: Limit;
      chloride: Limit;
    };
  };
  notes: Note[];
}

/**
 * What a recipe for a rehydration drink holds.
 * @source molar masses: IUPAC/CIAAW abridged standard atomic weights
 */
export function rehydration(
  { gramsPerL }: RehydrationInput,
  protocol: Protocol = defaultProtocol,
): Rehydration {
  const mmolPerL = (substance: Substance) =>
    ((gramsPerL[substance] ?? 0) * 1000) / molarMassGPerMol[substance];
  const salt = mmolPerL("sodiumChloride");
  const citrateMmolPerL = mmolPerL("trisodiumCitrateDihydrate");
  const bicarbonateMmolPerL = mmolPerL("sodiumBicarbonate");
  const potassiumMmolPerL = mmolPerL("potassiumChloride");
  const contents = {
    sodiumMmolPerL: salt + 3 * citrateMmolPerL + bicarbonateMmolPerL,
    chlorideMmolPerL: salt + potassiumMmolPerL,
    potassiumMmolPerL,
    glucoseMmolPerL: mmolPerL("glucose") + mmolPerL("glucoseMonohydrate"),
    citrateMmolPerL,
    bicarbonateMmolPerL,
    sucroseMmolPerL: mmolPerL("sucrose"),
  };
  const osmolarityMosmPerL = Object.values(contents).reduce((sum, value) => sum + value, 0);
  const meets = {
    highOutputDrink: highOutputDrink(contents, protocol),
    whoRehydrationSalts: whoSalts(contents, osmolarityMosmPerL),
  };
  return {
    ...contents,
    osmolarityMosmPerL,
    meets,
    notes: notesOn(gramsPerL, contents, meets.highOutputDrink.sodium, protocol),
  };
}

type Contents = Pick<
  Rehydration,
  | "sodiumMmolPerL"
  | "chlorideMmolPerL"
  | "potassiumMmolPerL"
  | "glucoseMmolPerL"
  | "citrateMmolPerL"
  | "sucroseMmolPerL"
>;

function highOutputDrink({ sodiumMmolPerL, glucoseMmolPerL }: Contents, protocol: Protocol) {
  const sodium = within(
    sodiumMmolPerL,
    protocol.drinkSodiumLeastMmolPerL - protocol.drinkSodiumRoundingMmolPerL,
    protocol.drinkSodiumMostMmolPerL,
  );
  const glucose = within(
    glucoseMmolPerL,
    protocol.drinkGlucoseLeastMmolPerL,
    protocol.drinkGlucoseMostMmolPerL + protocol.drinkGlucoseRoundingMmolPerL,
  );
  return { met: sodium.met && glucose.met, sodium, glucose };
}

function whoSalts(contents: Contents, osmolarityMosmPerL: number) {
  const limits = {
    osmolarity: within(osmolarityMosmPerL, ...whoLimits.osmolarityMosmPerL),
    sodium: within(contents.sodiumMmolPerL, ...whoLimits.sodiumMmolPerL),
    // At least as much glucose as sodium.
    glucose: within(contents.glucoseMmolPerL, contents.sodiumMmolPerL, whoLimits.glucoseMostMmolPerL),
    potassium: within(contents.potassiumMmolPerL, ...whoLimits.potassiumMmolPerL),
    citrate: within(contents.citrateMmolPerL, ...whoLimits.citrateMmolPerL),
    chloride: within(contents.chlorideMmolPerL, ...whoLimits.chlorideMmolPerL),
  };
  return { met: Object.values(limits).every(({ met }) => met), ...limits };
}

/**
 * The standard's own, and so not for a clinic to set.
 * @source WHO/UNICEF, Oral rehydration salts: production of the new ORS (2006); from memory
 */
const whoLimits = {
  osmolarityMosmPerL: [200, 310],
  sodiumMmolPerL: [60, 90],
  glucoseMostMmolPerL: 111,
  potassiumMmolPerL: [15, 25],
  citrateMmolPerL: [8, 12],
  chlorideMmolPerL: [50, 80],
} as const;

function within(value: number, least: number, most: number): Limit {
  return { met: value >= least && value <= most, value, least, most };
}

function notesOn(
  gramsPerL: GramsPerL,
  { sodiumMmolPerL, potassiumMmolPerL, sucroseMmolPerL }: Contents,
  sodium: Limit,
  protocol: Protocol,
): Note[] {
  const notes = [
    note(
      "ownClinician",
      "A recipe is drunk only on the advice of the person’s own clinician: heart, kidneys, pregnancy, diabetes and children need their own.",
    ),
  ];
  if (sodiumMmolPerL < sodium.least)
    notes.push(
      note(
        "sodiumTooLow",
        `${sodiumMmolPerL.toFixed(1)} mmol/L sodium is less than the ${protocol.drinkSodiumLeastMmolPerL} advised for a high output.`,
        { sodiumMmolPerL, least: protocol.drinkSodiumLeastMmolPerL },
      ),
    );
  if (sodiumMmolPerL > sodium.most)
    notes.push(
      note("sodiumTooHigh", `${sodiumMmolPerL.toFixed(1)} mmol/L sodium is more than ${sodium.most}.`, {
        sodiumMmolPerL,
        most: sodium.most,
      }),
    );
  if (potassiumMmolPerL === 0) notes.push(note("noPotassium", "It holds no potassium."));
  if (sucroseMmolPerL > 0)
    notes.push(
      note("sucrose", "Sugar stands in for glucose only in part: half of what it splits into is fructose."),
    );
  if (gramsPerL.glucose)
    notes.push(
      note(
        "glucoseKind",
        `If the powder is glucose monohydrate, ${(gramsPerL.glucose * monohydrateFactor).toFixed(2)} g are needed for ${gramsPerL.glucose} g.`,
        { monohydrateG: gramsPerL.glucose * monohydrateFactor },
      ),
    );
  const citrateG = gramsPerL.trisodiumCitrateDihydrate ?? 0;
  if (citrateG > 0 && !gramsPerL.sodiumBicarbonate)
    notes.push(
      note(
        "notGramForGram",
        `${citrateG} g of citrate bring as much sodium as ${(citrateG * bicarbonateForCitrate).toFixed(2)} g of bicarbonate: they do not swap gram for gram.`,
        { citrateG, bicarbonateG: citrateG * bicarbonateForCitrate },
      ),
    );
  return notes;
}

const monohydrateFactor = molarMassGPerMol.glucoseMonohydrate / molarMassGPerMol.glucose;
/** Grams of bicarbonate with the sodium of a gram of citrate. */
const bicarbonateForCitrate =
  (3 * molarMassGPerMol.sodiumBicarbonate) / molarMassGPerMol.trisodiumCitrateDihydrate;
