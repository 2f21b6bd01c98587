import { readdirSync, readFileSync } from "node:fs";

/** The ids of the workerd processes that descend from a process, read from /proc (Linux). */
export function findWorkerds(ancestorPid: number): number[] {
  const parentOf = new Map<number, number>();
  const workerds: number[] = [];
  for (const entry of readdirSync("/proc").filter((name) => /^\d+$/.test(name))) {
    const stat = readStat(entry);
    if (!stat) continue;
    parentOf.set(Number(entry), stat.parentPid);
    if (stat.name === "workerd" && stat.state !== "Z") workerds.push(Number(entry));
  }
  const descends = (pid: number): boolean => pid === ancestorPid || (pid > 1 && descends(parentOf.get(pid) ?? 0));
  return workerds.filter(descends);
}

export function isRunning(pid: number): boolean {
  const stat = readStat(String(pid));
  return stat !== undefined && stat.state !== "Z"; // a zombie has ended and waits for its parent to notice
}

function readStat(pid: string) {
  try {
    const [, name, state, parentPid] = /\((.*)\) (\S) (\d+)/s.exec(readFileSync(`/proc/${pid}/stat`, "utf8"))!;
    return { name, state, parentPid: Number(parentPid) };
  } catch {
    return undefined; // it ended while we looked
  }
}
