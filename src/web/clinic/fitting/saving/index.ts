export { cutShape } from "./cutShape.ts";
export { PutInUseDialog } from "./PutInUseDialog.tsx";
export { type Correcting, useSaveReading } from "./useSaveReading.ts";
