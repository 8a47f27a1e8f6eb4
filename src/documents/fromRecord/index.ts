export { type AdvisedSheet, adviseCuttingSheet, type SheetAuthor } from "./advise.ts";
export { type SheetOrder, type SheetRequest, sheetOrder } from "./request.ts";
export { type SheetBasis, type SheetFromRecord, sheetFromRecord } from "./sheet.ts";
export { type SitingRequest, sitingFromRecord } from "./siting.ts";
