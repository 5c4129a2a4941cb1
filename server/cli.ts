import { runCli } from "./run-cli.ts";
import { theModel } from "./the-model.ts";

/** All of standard input; a terminal counts as empty, so that a forgotten "<" does not wait for ever. */
async function readAll(): Promise<Buffer> {
  if (process.stdin.isTTY) return Buffer.alloc(0);
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(Buffer.from(part));
  return Buffer.concat(parts);
}

// A reader that closes early (as `| head`) is no failure of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? 0 : 1);
});

const result = await runCli(process.argv.slice(2), readAll, theModel);
process.exitCode = result.exitCode;
if (result.stderr !== "") process.stderr.write(result.stderr);
if (result.stdout !== "") process.stdout.write(result.stdout);
