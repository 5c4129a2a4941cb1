/** Minutes between two sites; symmetric, 0 within a site, null where the matrix has no entry. */
export function travelMinutes(
  travelMin: Readonly<Record<string, number>>,
  fromSiteId: string,
  toSiteId: string,
): number | null {
  if (fromSiteId === toSiteId) return 0;
  return travelMin[`${fromSiteId}|${toSiteId}`] ?? travelMin[`${toSiteId}|${fromSiteId}`] ?? null;
}
