export { type InUse, inUseFigures, type OpeningFigures, proposedFit } from "./fit.ts";
export { GapTable } from "./GapTable.tsx";
export { type Forecast, type Outlook, useForecast } from "./useForecast.ts";
export { VerdictPart } from "./VerdictPart.tsx";
export { verdictOf, warningsOf } from "./verdict.ts";
export { WhereBare } from "./WhereBare.tsx";
export { oneDecimal, rangeMm } from "./words.ts";
