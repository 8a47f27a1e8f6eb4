import { describe, expect, it } from "vitest";
import { databaseTrouble } from "./index.ts";

const failing = (code: string) => Object.assign(new Error("as the driver says it"), { code });

describe("trouble with the database that passes by itself", () => {
  it.each(["SQLITE_BUSY", "55P03", "57014", "40001", "40P01"])("%s: others are writing", (code) => {
    expect(databaseTrouble(failing(code))).toBe("busy");
  });

  it.each(["57P01", "08006", "ECONNREFUSED", "ECONNRESET"])("%s: it does not answer", (code) => {
    expect(databaseTrouble(failing(code))).toBe("databaseAway");
  });

  it.each([
    "Connection terminated unexpectedly",
    "Client has encountered a connection error and is not queryable",
  ])("%s: it does not answer", (sentence) =>
    expect(databaseTrouble(new Error(sentence))).toBe("databaseAway"),
  );

  it("is no other error, whatever it says", () => {
    for (const error of [failing("23505"), new Error("no"), null, "Connection terminated"]) {
      expect(databaseTrouble(error)).toBeNull();
    }
  });
});
