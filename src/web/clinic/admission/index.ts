export { AddPersonPage } from "./AddPersonPage.tsx";
