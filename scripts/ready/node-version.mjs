/** The oldest Node that runs Roundel; package.json says the same, and a test holds them equal. */
export const oldestNode = "20.11.0";

/**
 * Says what to do when this Node is too old, null when it will do. This file imports nothing and is written
 * for old releases, so that the sentence is what they show.
 * @param {string} version as in process.versions.node
 * @returns {string | null}
 */
export function nodeFault(version) {
  const have = version.split(".").map(Number);
  const need = oldestNode.split(".").map(Number);
  for (let part = 0; part < need.length; part += 1) {
    if (have[part] > need[part]) return null;
    if (have[part] < need[part]) {
      return `Roundel needs Node ${oldestNode} or newer; this is Node ${version}. Install a newer Node and start again.`;
    }
  }
  return null;
}
