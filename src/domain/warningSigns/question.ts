/** What can be answered or read from the log, by kind. Questions are plain enough to be asked at home. */
export type Question =
  | { kind: "yesNo"; ask: string }
  | { kind: "number"; ask: string; unit: string }
  | { kind: "choice"; ask: string; choices: Readonly<Record<string, string>> };

const yesNo = (ask: string): Question => ({ kind: "yesNo", ask });
const number = (unit: string, ask: string): Question => ({ kind: "number", unit, ask });

/** Everything a row may ask about. Figures that the log holds are answered from it. */
export const questions = {
  stomaColour: {
    kind: "choice",
    ask: "What colour is the stoma?",
    choices: {
      redOrPink: "red or pink",
      darkPurple: "dark purple",
      brown: "brown",
      grey: "grey",
      black: "black",
      veryPale: "very pale, almost white",
    },
  },
  bleeding: {
    kind: "choice",
    ask: "Is there blood?",
    choices: {
      none: "none",
      onWiping: "a little on wiping, which stops by itself",
      notStopping: "it does not stop under gentle pressure",
      largeClots: "large clots",
      fromInside: "it comes from inside the stoma",
      atSeveralEmpties: "some at several emptyings",
      atJunction: "all the time, where stoma and skin meet",
    },
  },
  bleedingHeavy: yesNo("Is it a lot of blood?"),
  liverDisease: yesNo("Is there a liver disease?"),
  deepCut: yesNo("Is there a deep cut in the stoma?"),
  hoursSinceOutput: number("hours", "How long ago did anything last come out of the stoma?"),
  hoursSinceUrine: number("hours", "How long ago did urine last come?"),
  cramp: yesNo("Are there cramps in the belly?"),
  bellyPain: yesNo("Is there pain in the belly?"),
  painHours: number("hours", "How long has the pain lasted?"),
  nausea: yesNo("Is there a feeling of sickness?"),
  vomiting: yesNo("Is there vomiting?"),
  swollenBelly: yesNo("Is the belly swollen or hard?"),
  swollenStoma: yesNo("Is the stoma swollen?"),
  nobodyReached: yesNo("Were the nurse and the surgeon called, and nobody was reached?"),
  thinFoulOutput: yesNo("Is the output thin, clear and foul?"),
  wateryHours: number("hours", "For how many hours has very much watery output come?"),
  outputMl: number("mL in 24 hours", "How much came out of the stoma in the last 24 hours?"),
  urineMl: number("mL in 24 hours", "How much urine came in the last 24 hours?"),
  halfFullEmpties: number(
    "emptyings a day",
    "How often was the pouch emptied half full in the last 24 hours?",
  ),
  weightLossPercent: number("%", "How much weight was lost within the last two weeks?"),
  thirst: yesNo("Is there much thirst, or a dry mouth?"),
  dizzyOnStanding: yesNo("Is there dizziness on standing up?"),
  darkScantUrine: yesNo("Is the urine dark and little?"),
  noUrine: yesNo("Has no urine come today?"),
  fainted: yesNo("Did the person faint, or nearly?"),
  confused: yesNo("Is the person confused or hard to wake?"),
  fastHeart: yesNo("Is the heart racing at rest?"),
  fastBreath: yesNo("Is the breath fast or short?"),
  mottledSkin: yesNo("Is the skin mottled, bluish or cold?"),
  temperatureCelsius: number("°C", "What is the temperature?"),
  shivering: yesNo("Are there shaking chills?"),
  woundRedOrPus: yesNo("Is the wound red, hot or running with pus?"),
  prolapse: {
    kind: "choice",
    ask: "Is the stoma longer than it was?",
    choices: {
      none: "no",
      known: "yes, as before; it goes back",
      new: "yes, since lately; it goes back",
      stuck: "yes, and it does not go back",
    },
  },
  prolapseHardOrPainful: yesNo("Is it hard, painful or dark?"),
  bulge: yesNo("Is there a bulge beside the stoma?"),
  bulgeSeverePain: yesNo("Does the bulge hurt badly?"),
  bulgeHard: yesNo("Is the bulge hard, or does it not go back on lying down?"),
  sunkBelowSkin: yesNo("Has the stoma lately sunk below the skin?"),
  leaking: yesNo("Does output get under the barrier or past it?"),
  separation: {
    kind: "choice",
    ask: "Have stoma and skin parted?",
    choices: { none: "no", shallow: "yes, a shallow gap", deep: "yes, a deep gap" },
  },
  thinStream: yesNo("Does output come only as a thin ribbon or a forced thin stream?"),
  skinOpenOrWeeping: yesNo("Is skin round the stoma open, weeping, or a sore that spreads?"),
  cannotKeepSeal: yesNo("Does no pouch stay on?"),
  violetUlcer: yesNo("Is there a very painful sore with a violet edge?"),
  itchyRashWithSpots: yesNo("Is there an itching rash with small spots round it?"),
  flankPain: yesNo("Is there pain in the flank or the back?"),
  drowsy: yesNo("Is the person unusually sleepy?"),
  overBreathing: yesNo("Is the breath deep and fast, without effort?"),
  cloudyOrSmelly: yesNo("Is the urine cloudy, smelling, or with threads of mucus?"),
  crystals: yesNo("Are there crystals or grit on the skin or the stoma?"),
  bloodyUrine: yesNo("Are there clots of blood in the urine?"),
  stentOut: yesNo("Has a stent come out, or moved?"),
  rodMoved: yesNo("Has the rod under the stoma come out, or moved?"),
  lowMoodDays: number("days", "For how many days has the mood been low, or joy been gone?"),
  avoidsStoma: yesNo("Does the person avoid looking at the stoma or caring for it?"),
  staysIn: yesNo("Has the person stopped going out because of the stoma?"),
  moodGettingWorse: yesNo("Is the mood getting worse?"),
  selfHarm: yesNo("Are there thoughts of ending it, or of doing oneself harm?"),
  chestPain: yesNo("Is there pain in the chest?"),
  oneLegSwollen: yesNo("Is one leg swollen or painful?"),
  shortOfBreath: yesNo("Is there shortness of breath?"),
} as const satisfies Record<string, Question>;

export type QuestionKey = keyof typeof questions;
export const questionKeys = Object.keys(questions) as QuestionKey[];

/** One answer for each question that was answered; what is missing was not asked. */
export type Answers = Partial<Record<QuestionKey, boolean | number | string>>;

export function questionOf(key: QuestionKey): Question {
  return questions[key];
}
