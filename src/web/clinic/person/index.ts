export { PersonPage } from "./PersonPage.tsx";
