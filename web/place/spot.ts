/**
 * "44.30° N 98.20° W", in Germany "44,30° N 98,20° W": two decimals are 1 km, finer than any weather service's grid.
 *
 * @param locale how its reader writes numbers; absent = with a point, as where it is kept
 */
export function spotText(
  { latitude, longitude }: { readonly latitude: number; readonly longitude: number },
  { locale = "en" }: { readonly locale?: string | undefined } = {},
): string {
  const format = new Intl.NumberFormat(locale, {
    minimumFractionDigits: 2,
    maximumFractionDigits: 2,
    numberingSystem: "latn",
  });
  const of = (degrees: number, [positive, negative]: readonly [string, string]) =>
    `${format.format(Math.abs(degrees))}° ${degrees < 0 ? negative : positive}`;
  return `${of(latitude, ["N", "S"])} ${of(longitude, ["E", "W"])}`;
}
