export { DetailsPart } from "./DetailsPart.tsx";
export { ImportDialog } from "./ImportDialog.tsx";
export { RadiiTable } from "./RadiiTable.tsx";
export { ScanPart } from "./ScanPart.tsx";
export { GuidePart, RulerPart } from "./SizeFields.tsx";
export { type Tool, TracingPart } from "./TracingPart.tsx";
