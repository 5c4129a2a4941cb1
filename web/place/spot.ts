/** "44.30° N 98.20° W": two decimals are 1 km, finer than any weather service's grid. */
export function spotText({
  latitude,
  longitude,
}: {
  readonly latitude: number;
  readonly longitude: number;
}): string {
  const of = (degrees: number, [positive, negative]: readonly [string, string]) =>
    `${Math.abs(degrees).toFixed(2)}° ${degrees < 0 ? negative : positive}`;
  return `${of(latitude, ["N", "S"])} ${of(longitude, ["E", "W"])}`;
}
