import type { Page } from "playwright-core";

interface Names {
  signInName: string;
  password: string;
}

/** Types name and password where a page or a dialog asks for them. */
export async function typeSignIn(page: Page, { signInName, password }: Names): Promise<void> {
  await page.getByLabel("Name", { exact: true }).fill(signInName);
  await page.getByRole("textbox", { name: "Password" }).fill(password);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
}
