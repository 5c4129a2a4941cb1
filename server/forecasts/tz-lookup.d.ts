declare module "tz-lookup" {
  /** The IANA zone at a place, from a map kept in the package. @throws RangeError outside the globe */
  export default function tzLookup(latitude: number, longitude: number): string;
}
