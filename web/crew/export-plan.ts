import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import type { MovedWork } from "./all-faults.ts";

/** Lets the browser save a file. */
export function saveFile(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/**
 * Has the server write a plan as calendar or table, and saves it; in words what went wrong, null = nothing.
 *
 * @param impossible works that are marked as not to be carried out where they were moved to
 */
export async function saveWritten(
  kind: "calendar" | "csv",
  plan: CrewPlanAnswer,
  planId: string,
  impossible: readonly MovedWork[],
): Promise<string | null> {
  try {
    const response = await fetch(`api/crew-plan/${kind}`, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ ...plan, planId, title: "Crew plan", impossible }),
    });
    if (!response.ok) return `The server did not write the file (status ${response.status}).`;
    saveFile(kind === "calendar" ? "crew-plan.ics" : "crew-plan.csv", await response.blob());
    return null;
  } catch {
    return "The file could not be fetched: there is no connection to the server.";
  }
}
