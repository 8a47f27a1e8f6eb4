export { FittingPage } from "./FittingPage.tsx";
