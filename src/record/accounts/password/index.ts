export { hashPassword, isOutdated, isPassword } from "./hash.ts";
export { argon2idParameters } from "./parameters.ts";
export { passwordFaults, passwordLength } from "./policy.ts";
