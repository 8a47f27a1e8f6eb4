/** Kept with every advice and fit; a test holds it equal to package.json. */
export const programVersion = "0.0.1";
