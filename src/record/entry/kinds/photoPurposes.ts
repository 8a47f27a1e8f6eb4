/** What photographs may be used for; each is asked for and can be taken back by itself. */
export const photoPurposes = ["keep", "showColleagues", "teach"] as const;
export type PhotoPurpose = (typeof photoPurposes)[number];
