export { caseloadCountsIn } from "./counts.ts";
export { caseloadFactsIn } from "./facts.ts";
export { caseloadIn } from "./search.ts";
