export interface PhotoTable {
  clinic_id: string;
  photo_id: string;
  person_id: string;
  stoma_id: string | null;
  entry_id: string | null;
  taken_ms: number | null;
  kept_ms: number;
  width_px: number;
  height_px: number;
  /** Names the recipients of the key, so that a rotation finds the photographs still to do. */
  sealed_for: string;
  /** The photograph's own key, sealed for the working and the recovery key. */
  sealed_key: Uint8Array;
  thumbnail: Uint8Array;
  picture: Uint8Array;
}
