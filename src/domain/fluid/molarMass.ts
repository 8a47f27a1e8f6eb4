/** @source IUPAC/CIAAW abridged standard atomic weights */
const atomicWeights = { H: 1.008, C: 12.011, O: 15.999, Na: 22.99, Cl: 35.45, K: 39.098 };

type Formula = Partial<Record<keyof typeof atomicWeights, number>>;

/** What rehydration drinks are weighed out from. */
export const formulas = {
  sodiumChloride: { Na: 1, Cl: 1 },
  glucose: { C: 6, H: 12, O: 6 },
  glucoseMonohydrate: { C: 6, H: 14, O: 7 },
  potassiumChloride: { K: 1, Cl: 1 },
  trisodiumCitrateDihydrate: { Na: 3, C: 6, H: 9, O: 9 },
  sodiumBicarbonate: { Na: 1, H: 1, C: 1, O: 3 },
  sucrose: { C: 12, H: 22, O: 11 },
} as const satisfies Record<string, Formula>;

export type Substance = keyof typeof formulas;

export const substances = Object.keys(formulas) as Substance[];

/** Grams in a mole. */
export const molarMassGPerMol = Object.fromEntries(
  substances.map((substance) => [substance, massOf(formulas[substance])]),
) as Record<Substance, number>;

function massOf(formula: Formula): number {
  return Object.entries(formula).reduce(
    (sum, [element, count]) => sum + atomicWeights[element as keyof typeof atomicWeights] * count,
    0,
  );
}
