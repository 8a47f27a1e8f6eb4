export { PrintDialog } from "./PrintDialog.tsx";
export { SheetPreview } from "./SheetPreview.tsx";
