export { ErasePage } from "./ErasePage.tsx";
