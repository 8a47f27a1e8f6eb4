import type { Page } from "playwright-core";

/** Gives a page's browser a passkey device that says yes to everything, as Chromium's developer tools can. */
export async function withAuthenticator(page: Page): Promise<{ remove(): Promise<void> }> {
  const session = await page.context().newCDPSession(page);
  await session.send("WebAuthn.enable");
  const { authenticatorId } = await session.send("WebAuthn.addVirtualAuthenticator", {
    options: {
      protocol: "ctap2",
      transport: "internal",
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  });
  return {
    async remove() {
      await session.send("WebAuthn.removeVirtualAuthenticator", { authenticatorId });
    },
  };
}
