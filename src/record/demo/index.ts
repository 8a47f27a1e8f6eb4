export { demoClinicId, demoNurse } from "./clinic.ts";
export { demoEntries, demoSeed } from "./entries.ts";
export { DemoRefused, type OpenedDemo, openOrMakeDemo, removeDemo } from "./folder.ts";
