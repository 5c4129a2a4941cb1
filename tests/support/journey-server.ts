import type { TestProject } from "vitest/node";
import { MOCKED_SERVICES } from "./mocked-services.ts";
import { type RunningServer, startServer } from "./server.ts";

/** The one server of a run's journeys: the real one, whose weather services are the mock. */

declare module "vitest" {
  interface ProvidedContext {
    /** Address of the server of the journeys, without a slash at its end. */
    readonly serverUrl: string;
  }
}

let server: RunningServer | undefined;

export async function setup(project: TestProject): Promise<void> {
  server = await startServer(MOCKED_SERVICES);
  project.provide("serverUrl", server.url);
}

export async function teardown(): Promise<void> {
  await server?.stop();
}
