import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";

const root = join(import.meta.dirname, "../../..");

/** A process of this project that may be killed at any moment. */
export interface Running {
  readonly pid: number;
  isAlive(): boolean;
  /** Its exit code; null where it was killed. What it said on its error output stands beside it. */
  readonly ended: Promise<{ readonly code: number | null; readonly complaints: string }>;
  kill(): void;
  /** The first piece of its output that fits. */
  says(pattern: RegExp): Promise<string>;
}

/** Runs node on files of the project; a job where `--import tsx` is not needed stands in .build/. */
export function runProcess(args: readonly string[], env: Readonly<Record<string, string>>): Running {
  const child: ChildProcess = spawn(process.execPath, [...args], {
    cwd: root,
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let complaints = "";
  let said = "";
  child.stderr!.on("data", (text: Buffer) => {
    complaints += text.toString();
  });
  child.stdout!.on("data", (text: Buffer) => {
    said += text.toString();
  });
  const ended = new Promise<{ code: number | null; complaints: string }>((resolve) =>
    child.once("close", (code) => resolve({ code, complaints })),
  );
  return {
    pid: child.pid!,
    isAlive: () => child.exitCode === null && child.signalCode === null,
    ended,
    kill: () => void child.kill("SIGKILL"),
    async says(pattern) {
      for (;;) {
        const found = pattern.exec(said)?.[0];
        if (found) return found;
        if (child.exitCode !== null) throw new Error(`it ended with ${child.exitCode}: ${complaints}`);
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
    },
  };
}
