import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { inspect } from "node:util";
import { generateX25519Identity } from "age-encryption";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Bench, keepPhoto, keptRecord, newBench } from "../../../test/record/kept.ts";
import { clinicId } from "../../../test/record/samples.ts";
import { type OpenRecord, openRecord } from "../open/index.ts";
import { countStale, resealPhotos } from "../photo/index.ts";
import {
  enforceRecoveryKey,
  groupsOf,
  isUnfinished,
  type KeyFault,
  newRecoveryKey,
  readKey,
  rotateKeys,
  unsealWith,
} from "./index.ts";
import { parseKeyFile } from "./keyFile.ts";

let bench: Bench;
let record: OpenRecord;
let personId: string;
async function newRecord() {
  bench = newBench();
  ({ record, personId } = await keptRecord(bench));
}
async function removeRecord() {
  await record.close();
  bench.remove();
}

const bytes = new TextEncoder().encode("a stoma of 32 mm");
const secretKey = /AGE-SECRET-KEY-1[A-Z0-9]{58}/;
const keyFileText = () => readFileSync(bench.keyFile, "utf8");

/** How opening the record's keys anew fails. */
async function faultOnOpening(): Promise<KeyFault> {
  const again = await openRecord(bench);
  try {
    return await again.keys().then(
      () => {
        throw new Error("the keys were opened");
      },
      (error: KeyFault) => error,
    );
  } finally {
    await again.close();
  }
}

describe("the key file of a record", () => {
  beforeAll(newRecord);
  afterAll(removeRecord);
  afterEach(async () => {
    const made = keyFileOfRecord;
    rmSync(bench.keyFile, { recursive: true, force: true });
    writeFileSync(bench.keyFile, made, { mode: 0o600 });
  });
  let keyFileOfRecord = "";

  it("is made at the first start, outside the data, and nobody else may read it", async () => {
    expect(existsSync(bench.keyFile)).toBe(false);
    const keys = await record.keys();
    keyFileOfRecord = keyFileText();
    expect(statSync(bench.keyFile).mode & 0o777).toBe(0o600);
    expect(parseKeyFile(keyFileText(), bench.keyFile).recordId).toBe(keys.recordId);
  });

  it("holds the same keys at every later start", async () => {
    const first = await record.keys();
    const sealed = await first.seal(bytes);
    const again = await openRecord(bench);
    const second = await again.keys();
    expect(await second.unseal(sealed)).toEqual(bytes);
    expect(second.auditKey()).toEqual(first.auditKey());
    await again.close();
  });

  it("is one and the same for processes that start at once", async () => {
    const others = await Promise.all([openRecord(bench), openRecord(bench), openRecord(bench)]);
    const all = await Promise.all([record, ...others].map((one) => one.keys()));
    expect(new Set(all.map(({ recipients }) => recipients.join())).size).toBe(1);
    await Promise.all(others.map((one) => one.close()));
  });

  it("never lies among the data, whichever way its path is written", async () => {
    symlinkSync(bench.dataDir, bench.path("elsewhere"));
    for (const keyFile of [bench.path("clinic", "k.key"), bench.path("elsewhere", "deep", "k.key")]) {
      const inside = await openRecord({ dataDir: bench.dataDir, keyFile });
      await expect(inside.keys()).rejects.toMatchObject({ code: "keyFileInData" });
      expect(existsSync(keyFile)).toBe(false);
      await inside.close();
    }
  });

  it("that is missing is never made anew over a record that has keys", async () => {
    await record.keys();
    rmSync(bench.keyFile);
    const fault = await faultOnOpening();
    expect(fault.code).toBe("keyFileMissing");
    expect(fault.message).toContain(bench.keyFile);
    expect(existsSync(bench.keyFile)).toBe(false);
  });

  it.each([0o640, 0o604, 0o644, 0o660])("that others may read (%o) is refused", async (mode) => {
    await record.keys();
    chmodSync(bench.keyFile, mode);
    expect(await faultOnOpening()).toMatchObject({ code: "keyFileReadable" });
  });

  it("of another record is refused", async () => {
    await record.keys();
    const own = (await record.keys()).recordId;
    writeFileSync(
      bench.keyFile,
      keyFileText().replace(
        own,
        own.replace(/^./, (first) => (first === "0" ? "1" : "0")),
      ),
    );
    expect(await faultOnOpening()).toMatchObject({ code: "keyFileOfAnother" });
  });

  it.each([
    ["nothing", () => ""],
    ["rubbish", () => "\u0000\u0001\u0002"],
    ["a bare age identity", (text: string) => `${secretKey.exec(text)![0]}\n`],
    ["a line left out", (text: string) => text.replace(/# derivation .*\n/, "")],
    ["a line too many", (text: string) => `${text}# note to self\n`],
    ["a key cut short", (text: string) => text.slice(0, -5)],
    [
      "a letter changed that no key has",
      (text: string) => text.replace("AGE-SECRET-KEY-1", "AGE-SECRET-KEY-1B"),
    ],
  ])("with %s in it is refused by line, and none of its keys is shown", async (_what, change) => {
    await record.keys();
    writeFileSync(bench.keyFile, change(keyFileText()));
    const fault = await faultOnOpening();
    expect(fault.code).toBe("keyFileUnreadable");
    expect(fault.message).toMatch(/line \d+/);
    expect(fault.message).not.toMatch(/AGE-SECRET/);
  });

  it("that is a folder, or endless, is refused", async () => {
    await record.keys();
    writeFileSync(bench.keyFile, "x".repeat(100_000));
    expect(await faultOnOpening()).toMatchObject({ code: "keyFileUnreadable" });
    rmSync(bench.keyFile);
    mkdirSync(bench.keyFile, { mode: 0o700 });
    expect(await faultOnOpening()).toMatchObject({ code: "keyFileUnreadable" });
  });

  it("never shows its keys to whatever prints or logs it", async () => {
    const keys = await record.keys();
    const shown = [inspect(keys, { depth: 9, showHidden: true }), JSON.stringify({ keys }), `${keys}`];
    for (const text of shown) {
      expect(text).not.toMatch(/AGE-SECRET/);
      expect(text).not.toContain(Buffer.from(keys.auditKey()).toString("hex"));
    }
  });
});

describe("what is sealed", () => {
  beforeAll(newRecord);
  afterAll(removeRecord);

  it("opens with the key file, and with nothing else", async () => {
    const keys = await record.keys();
    const sealed = await keys.seal(bytes);
    expect(Buffer.from(sealed).includes("32 mm")).toBe(false);
    expect(await keys.unseal(sealed)).toEqual(bytes);
    await expect(unsealWith([await generateX25519Identity()], sealed)).rejects.toMatchObject({
      code: "wrongKey",
    });
  });

  it("does not open when a bit of it changed, or its end is missing", async () => {
    const keys = await record.keys();
    const sealed = await keys.seal(bytes);
    for (const at of [0, 40, sealed.length - 20, sealed.length - 1]) {
      const changed = sealed.map((byte, index) => (index === at ? byte ^ 1 : byte));
      await expect(keys.unseal(changed)).rejects.toMatchObject({ name: "KeyFault" });
    }
    await expect(keys.unseal(sealed.slice(0, -1))).rejects.toMatchObject({ code: "damaged" });
  });
});

describe("the recovery key", () => {
  beforeEach(newRecord);
  afterEach(removeRecord);

  const enforce = async (replace = false) => {
    const keys = await record.keys();
    const made = await newRecoveryKey();
    const renewal = { db: record.db, keys, reseal: () => resealPhotos(record.db, keys) };
    await enforceRecoveryKey({ recipient: made.recipient, replace }, renewal);
    return made.identity;
  };

  it("opens everything that is sealed from then on, and photographs from before", async () => {
    const photoId = await keepPhoto(record, personId);
    const identity = await enforce();
    const { sealed_key } = await record.db.selectFrom("photo").select("sealed_key").executeTakeFirstOrThrow();
    expect(await unsealWith([identity], sealed_key)).toHaveLength(32);
    expect(await unsealWith([identity], await (await record.keys()).seal(bytes))).toEqual(bytes);
    expect(await record.photos.open(clinicId, photoId)).not.toBeNull();
  });

  it("is kept nowhere", async () => {
    const identity = await enforce();
    await record.close();
    for (const file of [bench.keyFile, bench.path("clinic", "record.sqlite")]) {
      expect(readFileSync(file).includes(identity)).toBe(false);
    }
    record = await openRecord(bench);
  });

  it("is one: another has to be asked for in so many words", async () => {
    const first = await enforce();
    await expect(enforce()).rejects.toMatchObject({ code: "recoveryKeyExists" });
    const second = await enforce(true);
    const sealed = await (await record.keys()).seal(bytes);
    expect(await unsealWith([second], sealed)).toEqual(bytes);
    await expect(unsealWith([first], sealed)).rejects.toMatchObject({ code: "wrongKey" });
  });

  it("is read as it stands on paper, and a letter misread is noticed", async () => {
    const identity = await enforce();
    const onPaper = groupsOf(identity).join(" ");
    expect(await readKey(` ${onPaper.toLowerCase().replace(/ /g, "\n")}\n`)).toBe(identity);
    const misread = identity.slice(0, -1) + (identity.endsWith("Q") ? "P" : "Q");
    await expect(readKey(misread)).rejects.toMatchObject({ code: "notAKey" });
    for (const wrong of ["", "   ", "AGE-SECRET-KEY-1", "age1xyz", identity.slice(1), `${identity}Q`]) {
      await expect(readKey(wrong)).rejects.toMatchObject({ code: "notAKey" });
    }
    expect((await readKey(misread).catch((error: Error) => error.message)) as string).not.toContain(misread);
  });
});

describe("rotating the keys", () => {
  beforeEach(newRecord);
  afterEach(removeRecord);

  const renewal = async () => {
    const keys = await record.keys();
    return { db: record.db, keys, reseal: () => resealPhotos(record.db, keys) };
  };

  it("seals every photograph anew; the old key opens none, though it still opens older backups", async () => {
    const old = await (await record.keys()).seal(bytes);
    const before = secretKey.exec(keyFileText())![0];
    const photoId = await keepPhoto(record, personId);
    expect(await rotateKeys(await renewal())).toEqual({ done: 1, failed: 0, wasUnfinished: false });
    const { sealed_key } = await record.db.selectFrom("photo").select("sealed_key").executeTakeFirstOrThrow();
    await expect(unsealWith([before], sealed_key)).rejects.toMatchObject({ code: "wrongKey" });
    expect(await record.photos.open(clinicId, photoId)).not.toBeNull();
    expect(await (await record.keys()).unseal(old)).toEqual(bytes);
  });

  it("makes earlier copies of the key file useless: they are refused", async () => {
    const keys = await record.keys();
    const old = keyFileText();
    await rotateKeys({ db: record.db, keys, reseal: () => resealPhotos(record.db, keys) });
    writeFileSync(bench.keyFile, old);
    expect(await faultOnOpening()).toMatchObject({ code: "keyFileOutdated" });
  });

  it("changes nothing of the audit trail's key", async () => {
    const before = (await record.keys()).auditKey();
    await rotateKeys(await renewal());
    expect((await record.keys()).auditKey()).toEqual(before);
  });

  it("that was interrupted goes on where it stopped, and everything opens in between", async () => {
    const photoIds = [await keepPhoto(record, personId), await keepPhoto(record, personId)];
    const { db, keys } = await renewal();
    const stop = new AbortController();
    const stopping = () => resealPhotos(db, keys, { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(rotateKeys({ db, keys, reseal: stopping })).rejects.toThrow();
    expect(await countStale(db, keys)).toBe(1);
    expect(await isUnfinished(db, keys)).toBe(true);
    const again = await openRecord(bench);
    for (const photoId of photoIds) expect(await again.photos.open(clinicId, photoId)).not.toBeNull();
    await again.close();
    const retired = keys.retiredCount;
    expect(await rotateKeys(await renewal())).toEqual({ done: 1, failed: 0, wasUnfinished: true });
    expect(keys.retiredCount).toBe(retired);
    expect(await isUnfinished(db, keys)).toBe(false);
  });

  it("is followed by a bench that is running: it seals for the new key without a new start", async () => {
    const running = await openRecord(bench);
    const runningKeys = await running.keys();
    await rotateKeys(await renewal());
    const photoId = await keepPhoto(running, personId);
    expect(await countStale(record.db, await record.keys())).toBe(0);
    expect(await running.photos.open(clinicId, photoId)).not.toBeNull();
    expect(runningKeys.recipients).toEqual((await record.keys()).recipients);
    await running.close();
  });
});
