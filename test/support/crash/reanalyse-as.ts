import { reanalyse } from "../../../api/jobs/reanalyse.ts";
import { openNode, readSettings } from "../../../api/node-settings.ts";
import { NEXT_METHOD } from "../other-method.ts";

/* tsx test/support/crash/reanalyse-as.ts 3: what `npm run reanalyse` does where the code is the third version of the method. */
const ordinal = Number(process.argv[2]);
const version = `1.${ordinal}.0`;
const analyse: typeof NEXT_METHOD.analyse = (trial) => ({ ...NEXT_METHOD.analyse(trial), methodVersion: version });
const deps = await openNode(readSettings(process.env, ""));
console.log("at work");
const { analysed } = await reanalyse({ ...deps, method: { version, ordinal, analyse } });
deps.db.close();
console.log(`${analysed} trials analysed`);
