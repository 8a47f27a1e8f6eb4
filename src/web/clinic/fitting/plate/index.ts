export { DrawLayer } from "./DrawLayer.tsx";
export { viewBeside } from "./frame.ts";
export { Handles } from "./Handles.tsx";
export { Key, type KeyLine } from "./Key.tsx";
export type { Comparison } from "./Outlines.tsx";
export { Plate } from "./Plate.tsx";
export { ScanMarks, ScanMover, ScanPicture } from "./ScanLayer.tsx";
export { plateSummary } from "./summary.ts";
