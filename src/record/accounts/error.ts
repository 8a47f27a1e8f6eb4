/** What an account cannot be made or changed to; the code says why. */
export class AccountError extends Error {
  readonly code: "nameTaken" | "lastLead" | "lastWayIn" | "needsBoth" | "linkSpent" | "noSuchAccount";
  constructor(code: AccountError["code"]) {
    super(code);
    this.name = "AccountError";
    this.code = code;
  }
}
