#!/usr/bin/env node
import { nodeFault } from "../scripts/ready/node-version.mjs";

/** The command line: builds what changed since the last time, then hands over. */
const fault = nodeFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exitCode = 1;
} else {
  import("../scripts/ready/command-line.mjs").then(({ openCommandLine }) => openCommandLine());
}
