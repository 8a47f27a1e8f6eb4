export { JoinPage } from "./JoinPage.tsx";
export { RecoverPage } from "./RecoverPage.tsx";
export { SetUpPage } from "./SetUpPage.tsx";
