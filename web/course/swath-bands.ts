import { ROUTE_CATALOGUE, type WindowsRequest } from "../../model/harvest/index.ts";
import { routeBands } from "../worker/route-bands.ts";
import type { CourseRead } from "./course-picture.ts";

/** The bands of moisture that a course crosses: of the routes asked for that lie in a swath. */
export function swathBands(request: Omit<WindowsRequest, "weather">): CourseRead[] {
  return routeBands(request)
    .filter(({ route }) => ROUTE_CATALOGUE[route].kind === "swath")
    .map(({ route, bandWb }) => ({ route, label: ROUTE_CATALOGUE[route].label, bandWb }));
}
