/**
 * On which ground a person is erased: a closed list, since the trail that keeps the ground may hold nothing that
 * somebody wrote about them. The bench lists the grounds; whether one holds is for the clinic to judge by its law.
 * @source Regulation (EU) 2016/679, article 17(1), points (a) to (e); from memory
 */
export const erasureGrounds = {
  noLongerNeeded: "The record is no longer needed for what it was made for.",
  consentWithdrawn: "The person withdrew the consent on which the record rests.",
  objected: "The person objects to the record, and nothing weighs more.",
  madeWithoutRight: "The record was made without right, as of the wrong person.",
  ordered: "A law or a court requires it.",
} as const;

export type ErasureGround = keyof typeof erasureGrounds;

export const erasureGroundKeys = Object.keys(erasureGrounds) as ErasureGround[];
