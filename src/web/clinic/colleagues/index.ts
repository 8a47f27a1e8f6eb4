export { ColleaguesPage } from "./ColleaguesPage.tsx";
