export { KeyFault, type KeyFaultCode } from "./fault.ts";
export { readKeyFile } from "./keyFile.ts";
export { Keys } from "./keys.ts";
export { groupsOf, readKey } from "./keyText.ts";
export { readMark } from "./marks.ts";
export { isUnfinished, type KeyOptions, keepInForce, openKeys, recoverKeys } from "./open.ts";
export { keyFilePlace, keyFolder } from "./place.ts";
export {
  enforceRecoveryKey,
  newRecoveryKey,
  noteProof,
  type Reseal,
  type Resealed,
  refuseOtherRecoveryKey,
  refuseSecondRecoveryKey,
  rotateKeys,
} from "./renew.ts";
export { sealFor, sealStream, unsealStream, unsealWith } from "./seal.ts";
