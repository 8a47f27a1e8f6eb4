import type {
  AuthenticationResponseJSON,
  PublicKeyCredentialCreationOptionsJSON,
  PublicKeyCredentialRequestOptionsJSON,
  RegistrationResponseJSON,
} from "@simplewebauthn/browser";

export type UseOptions = PublicKeyCredentialRequestOptionsJSON;
export type MakeOptions = PublicKeyCredentialCreationOptionsJSON;

/** Whether this browser can use passkeys at all; whether this address can, the session says. */
export function passkeysHere(): boolean {
  return typeof PublicKeyCredential !== "undefined";
}

/** Has the browser answer with a passkey. @throws {PasskeyError} */
export async function answerWithPasskey(options: UseOptions): Promise<AuthenticationResponseJSON> {
  const { startAuthentication } = await import("@simplewebauthn/browser");
  return startAuthentication({ optionsJSON: options }).catch((cause) => {
    throw new PasskeyError(cause);
  });
}

/** Has the browser make a passkey on a device of the person's choice. @throws {PasskeyError} */
export async function makePasskey(options: MakeOptions): Promise<RegistrationResponseJSON> {
  const { startRegistration } = await import("@simplewebauthn/browser");
  return startRegistration({ optionsJSON: options }).catch((cause) => {
    throw new PasskeyError(cause);
  });
}

/** Why the browser gave no passkey, as a sentence. */
export class PasskeyError extends Error {
  constructor(cause: unknown) {
    super(sentences[nameOf(cause)] ?? "This browser could not use the passkey.", { cause });
    this.name = "PasskeyError";
  }
}

function nameOf(cause: unknown): string {
  return cause instanceof Error ? cause.name : "";
}

/** By the names that the browser gives its errors. @source W3C Web Authentication Level 2, 5.1.3 and 5.1.4 */
const sentences: Record<string, string> = {
  NotAllowedError: "No passkey was used: the browser’s question was closed, or it waited too long.",
  AbortError: "No passkey was used: the browser’s question was closed, or it waited too long.",
  InvalidStateError: "This device holds a passkey for this account already.",
  SecurityError: "Passkeys do not work at this address.",
};
