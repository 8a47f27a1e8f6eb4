export { type CuttingSheet, cuttingSheet } from "./cutting-sheet/index.ts";
export type { Paper, PrintScale } from "./drawing/paper.ts";
export { type FrameCard, frameCard } from "./frame-card/index.ts";
export { type RecoveryKeyPage, recoveryKeyPage } from "./recovery-key/index.ts";
export { type SitingMark, type SitingRecord, sitingRecord } from "./siting-record/index.ts";
export type { IsoDate } from "./words.ts";
