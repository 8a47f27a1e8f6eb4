export { NotSetUpPage } from "./NotSetUpPage.tsx";
export { SignInPage } from "./SignInPage.tsx";
