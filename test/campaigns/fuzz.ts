import { parseArgs } from "node:util";
import { startInProcess } from "../support/in-process.ts";
import { fuzzBodies } from "./fuzz-bodies.ts";

/* `npm run fuzz -- --bodies 20000 --seed 20261103 [--from 0]`: mutated logs and trials against `POST /v1/analyses`. */
const { values } = parseArgs({
  options: {
    bodies: { type: "string", default: "20000" },
    seed: { type: "string", default: "20261103" },
    from: { type: "string", default: "0" },
  },
});
const from = Number(values.from);
const target = await startInProcess();
const { statuses, slowestMs, faults } = await fuzzBodies(
  target.request,
  from,
  from + Number(values.bodies),
  Number(values.seed),
);
await target.stop();
const counts = Object.entries(statuses).map(([status, count]) => `${count} × ${status}`);
console.log(`${values.bodies} bodies of seed ${values.seed}: ${counts.join(", ")}; slowest ${slowestMs.toFixed(0)} ms`);
for (const { body, fault } of faults) console.log(`body ${body}: ${fault}`);
process.exitCode = faults.length > 0 ? 1 : 0;
