export { ClinicPage } from "./ClinicPage.tsx";
