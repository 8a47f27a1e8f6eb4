import { createHash, generateKeyPairSync, type KeyObject, randomBytes, sign } from "node:crypto";

/** What a page would pass to the browser's passkey interface, as the bench sends it. */
interface Options {
  challenge: string;
  rpId?: string;
  rp?: { id?: string };
  user?: { id: string };
  allowCredentials?: { id: string }[];
}

interface Key {
  id: string;
  rpId: string;
  userHandle: string;
  privateKey: KeyObject;
  counter: number;
}

interface Behaviour {
  /** The page's origin as the browser writes it. */
  origin: string;
  /** Whether it asked for a finger or a number before answering. */
  verifiesUser?: boolean;
}

/** Flags of WebAuthn Level 3, 6.1: user present, user verified, attested credential data. */
const present = 0x01;
const verified = 0x04;
const attested = 0x40;

/** A passkey device in software: keys on P-256, attestation "none", as WebAuthn Level 3 lays out their bytes. */
export class Authenticator {
  readonly keys: Key[] = [];
  private readonly behaviour: Required<Behaviour>;

  constructor(behaviour: Behaviour) {
    this.behaviour = { verifiesUser: true, ...behaviour };
  }

  /** What the browser answers when a page asks for a new passkey. */
  create({ challenge, rp, user }: Options) {
    const { publicKey, privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
    const { x, y } = publicKey.export({ format: "jwk" });
    const rawId = randomBytes(32);
    const id = rawId.toString("base64url");
    const rpId = rp?.id ?? "";
    this.keys.push({ id, rpId, userHandle: user?.id ?? "", privateKey, counter: 0 });
    const idLength = Buffer.alloc(2);
    idLength.writeUInt16BE(rawId.length);
    const authData = Buffer.concat([
      this.head(rpId, attested, 0),
      Buffer.alloc(16),
      idLength,
      rawId,
      coseKey(Buffer.from(x!, "base64url"), Buffer.from(y!, "base64url")),
    ]);
    const attestationObject = Buffer.concat([
      Buffer.from([0xa3]),
      cborText("fmt"),
      cborText("none"),
      cborText("attStmt"),
      Buffer.from([0xa0]),
      cborText("authData"),
      cborBytes(authData),
    ]);
    return {
      id,
      rawId: id,
      type: "public-key" as const,
      clientExtensionResults: {},
      response: {
        clientDataJSON: this.clientData("webauthn.create", challenge),
        attestationObject: attestationObject.toString("base64url"),
        transports: ["internal"],
      },
    };
  }

  /** What the browser answers when a page asks for a passkey that is there. */
  get({ challenge, rpId, allowCredentials = [] }: Options, key = this.fitting(rpId, allowCredentials)) {
    key.counter += 1;
    const authData = this.head(rpId ?? "", 0, key.counter);
    const clientDataJSON = this.clientData("webauthn.get", challenge);
    const hash = createHash("sha256").update(Buffer.from(clientDataJSON, "base64url")).digest();
    return {
      id: key.id,
      rawId: key.id,
      type: "public-key" as const,
      clientExtensionResults: {},
      response: {
        clientDataJSON,
        authenticatorData: authData.toString("base64url"),
        signature: sign("sha256", Buffer.concat([authData, hash]), key.privateKey).toString("base64url"),
        userHandle: key.userHandle,
      },
    };
  }

  private fitting(rpId: string | undefined, allowed: readonly { id: string }[]): Key {
    const key = this.keys.find(
      (one) => one.rpId === rpId && (allowed.length === 0 || allowed.some(({ id }) => id === one.id)),
    );
    if (!key) throw new Error("no such passkey on this device");
    return key;
  }

  private head(rpId: string, more: number, counter: number): Buffer {
    const count = Buffer.alloc(4);
    count.writeUInt32BE(counter);
    const flags = present | more | (this.behaviour.verifiesUser ? verified : 0);
    return Buffer.concat([createHash("sha256").update(rpId).digest(), Buffer.from([flags]), count]);
  }

  private clientData(type: string, challenge: string): string {
    const { origin } = this.behaviour;
    return Buffer.from(JSON.stringify({ type, challenge, origin, crossOrigin: false })).toString("base64url");
  }
}

/** An ES256 key as COSE: kty 2, alg -7, crv 1, x, y (RFC 9053). */
function coseKey(x: Buffer, y: Buffer): Buffer {
  return Buffer.concat([
    Buffer.from([0xa5, 0x01, 0x02, 0x03, 0x26, 0x20, 0x01, 0x21]),
    cborBytes(x),
    Buffer.from([0x22]),
    cborBytes(y),
  ]);
}

function cborText(text: string): Buffer {
  return Buffer.concat([Buffer.from([0x60 + text.length]), Buffer.from(text)]);
}

/** As short as the length allows: readers take nothing else for a key. */
function cborBytes(bytes: Buffer): Buffer {
  const { length } = bytes;
  const head = length < 256 ? [0x58, length] : [0x59, length >> 8, length & 0xff];
  return Buffer.concat([Buffer.from(head), bytes]);
}
