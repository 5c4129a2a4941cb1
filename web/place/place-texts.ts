/** What a file does not say itself, as typed. */
export type PlaceField = "latitude" | "longitude" | "elevationM" | "timeZone" | "windHeightM";
export type PlaceTexts = Readonly<Record<PlaceField, string>>;
export type PlaceErrors = Readonly<Partial<Record<PlaceField | "file", string>>>;
