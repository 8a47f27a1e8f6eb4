export { writeFile } from "./file.ts";
