/** What is wrong with the keys of a record; the message is a sentence that says what to do, and never holds a key. */
export class KeyFault extends Error {
  readonly code: KeyFaultCode;
  constructor(code: KeyFaultCode, message: string) {
    super(message);
    this.name = "KeyFault";
    this.code = code;
  }
}

export type KeyFaultCode =
  | "keyFileMissing"
  | "keyFileReadable"
  | "keyFileUnreadable"
  | "keyFileOfAnother"
  | "keyFileOutdated"
  | "keyFileInData"
  | "notAKey"
  | "notTheRecoveryKey"
  | "noRecoveryKey"
  | "recoveryKeyExists"
  | "wrongKey"
  | "damaged";
