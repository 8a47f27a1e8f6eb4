export {
  type Account,
  benchRoles,
  homeRoles,
  type Listener,
  type Passkey,
  type Role,
  roles,
  type SessionLine,
  type SignedIn,
} from "./account.ts";
export { AccountError } from "./error.ts";
export { deviceMs, linkLimits, sessionLimits } from "./limits.ts";
export type { Link, LinkKind, NewLink } from "./links.ts";
export { linkTo } from "./linkTo.ts";
export { displayName, signInKey, signInName } from "./names.ts";
export type { Purpose } from "./passkeys/challenges.ts";
export type { PasskeyKey } from "./passkeys/passkeys.ts";
export {
  argon2idParameters,
  hashPassword,
  isOutdated,
  isPassword,
  passwordFaults,
  passwordLength,
} from "./password/index.ts";
export { newSecret } from "./secret.ts";
export { AccountStore, type NewAccount } from "./store.ts";
export type { Attempt, Counted } from "./throttle/index.ts";
