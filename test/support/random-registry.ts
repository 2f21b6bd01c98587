import { createRandom } from "../../analysis/simulate/random.ts";
import { simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import { learnSpreadAnew } from "../../api/jobs/learn-spread.ts";
import { reanalyse } from "../../api/jobs/reanalyse.ts";
import { type InProcess, settings } from "./in-process.ts";
import { NEXT_METHOD } from "./other-method.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleScenario, sentSeries, withoutFlow } from "./sample-trial.ts";

interface Room {
  readonly label: string;
  readonly key: string;
  volume: { value: number; unit: "m3"; u: number };
  id: string | null;
}
interface Trial {
  readonly id: string;
  readonly room: Room;
  readonly invented: boolean;
}

const SETTINGS = ["low", "HIGH"];
const INTERESTS = ["independent", "independent", "lent_or_given", "paid", "maker_or_seller"];
const AEROSOLS = ["salt", "salt", "incense"];

/**
 * Everything that changes a pooled figure, by chance from a seed, through the API: trials of every sort, withdrawals,
 * an operator's decisions, corrected rooms, merged and revised configurations, spreads learnt, a method
 * adopted. Returns how often each was done.
 */
export async function operate(target: InProcess, seed: number, operations: number): Promise<Record<string, number>> {
  const random = createRandom(seed);
  const chance = (n: number) => Math.floor(n * random.uniform());
  const oneOf = <T>(all: readonly T[]): T => all[chance(all.length)]!;
  const keys: string[] = [];
  for (let i = 0; i < 5; i++)
    keys.push(((await send("/v1/keys", { handle: `submitter ${i}` })) as { key: string }).key);
  const rooms = Array.from({ length: 12 }, (_, i): Room => {
    return { label: `room ${i}`, key: keys[i % keys.length]!, volume: { value: 20 + i, unit: "m3", u: 0.5 }, id: null };
  });
  const standing: Trial[] = [];
  const bodies = new Map<string, object>(); // of configurations not merged yet, by id
  const counts: Record<string, number> = {};

  async function send(path: string, body: unknown, key?: string): Promise<unknown> {
    const answer = await target.request(path, json(body, key === undefined ? {} : bearer(key)));
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
    return answer.json();
  }

  async function store(i: number): Promise<void> {
    const room = oneOf(rooms);
    const invented = chance(6) === 0;
    const model = chance(3);
    const configuration = {
      ...withoutFlow(SAMPLE_CONFIGURATION),
      title: `Tern box ${model}`,
      arrangement: `arrangement ${model}.${Math.floor(i / 50)}`,
      settings: SETTINGS.map((label) => ({ label })),
    };
    const { schedule: _, ...scenario } = sampleScenario(1000 * seed + i);
    const made = simulateRuns(
      {
        ...scenario,
        room: { ...scenario.room, volumeM3: room.volume.value },
        cleaner: { cadrM3PerH: 220 + 60 * model },
      },
      { background: 60, natural: 400, total: 900 },
    );
    const kin = standing.filter((trial) => trial.room === room && trial.invented === invented);
    const own = { role: "natural", series: sentSeries(made.natural.series) };
    const taken = kin.length > 0 ? [{ role: "natural", from_run: `${oneOf(kin).id}/runs/0` }] : [own];
    const stored = (await send(
      "/v1/trials",
      {
        configuration,
        setting: oneOf(SETTINGS).toUpperCase(),
        performed_at: "2026-10-03T18:20:00+02:00",
        room: { label: room.label, volume: room.volume, ventilation: "off", mixing_fan: "on" },
        aerosol: { kind: oneOf(AEROSOLS) },
        counters: [{ id: "c1", principle: "optical_counter" }],
        interest: oneOf(INTERESTS),
        invented,
        ...(chance(2) ? { power: { value: 30 + chance(20), unit: "W" } } : {}),
        ...(chance(2) ? { noise: [noiseOf(chance)] } : {}),
        runs: [...oneOf([[own], [own], taken]), { role: "total", series: sentSeries(made.total.series) }],
      },
      room.key,
    )) as { id: string; configuration: { id: string }; room: { id: string } };
    room.id = stored.room.id;
    standing.push({ id: stored.id, room, invented });
    // What was sent with a merged configuration's parts answers with the other's id, whose body is known.
    if (!bodies.has(stored.configuration.id)) bodies.set(stored.configuration.id, configuration);
  }

  async function withdraw(): Promise<void> {
    const [trial] = standing.splice(chance(standing.length), 1);
    await send(`/v1/trials/${trial!.id}/withdrawal`, { reason: "by chance" }, trial!.room.key);
  }

  async function decide(): Promise<void> {
    const { id } = oneOf(standing);
    const action = oneOf(["hold", "list", "list"]);
    await send("/v1/moderation", { subject: id, action, reason: "by chance" }, settings.operatorKey);
  }

  const ask = () => send(`/v1/trials/${oneOf(standing).id}/questions`, { question: "By chance?" });

  /** Who paid, and at times the end of the last run: both change what counts. */
  async function amend(): Promise<void> {
    const { id, room } = oneOf(standing);
    const { runs } = (await (await target.request(`/v1/trials/${id}`)).json()) as { runs: unknown[] };
    const cut = { n: runs.length - 1, to: 500 + chance(300) };
    const change = { interest: oneOf(INTERESTS), ...(chance(2) ? { runs: [cut] } : {}), reason: "by chance" };
    await send(`/v1/trials/${id}/revisions`, change, room.key);
  }

  async function correct(): Promise<void> {
    const room = oneOf(rooms.filter(({ id }) => id !== null));
    room.volume = { ...room.volume, value: room.volume.value * (0.9 + 0.2 * random.uniform()) };
    await send(`/v1/rooms/${room.id}/revisions`, { volume: room.volume, reason: "measured again" }, room.key);
  }

  async function merge(): Promise<void> {
    const id = oneOf([...bodies.keys()]);
    const into = oneOf([...bodies.keys()].filter((other) => other !== id));
    bodies.delete(id);
    await send(`/v1/configurations/${id}/merge`, { into, reason: "found to be one" }, settings.operatorKey);
  }

  async function revise(i: number): Promise<void> {
    const [id, body] = oneOf([...bodies]);
    const title = `Tern box, named ${i}`;
    await send(`/v1/configurations/${id}/revisions`, { ...body, title }, settings.operatorKey);
  }

  const learn = () => learnSpreadAnew(target.deps.db, target.deps.now, { batches: 1 + chance(3), size: 4 }); // sometimes not to its end

  /** A newer version, a few steps on; trials stored meanwhile and afterwards are still the older one's. */
  const again = () => {
    const limits = { trials: 10 + chance(60), batches: 1 + chance(4), size: 2 };
    return reanalyse({ ...target.deps, method: NEXT_METHOD }, limits);
  };

  for (let i = 0; i < operations; i++) {
    const draw = chance(100);
    const [name, act] =
      standing.length < 8 || bodies.size < 3 || draw < 62
        ? (["store", () => store(i)] as const)
        : draw < 70
          ? (["withdraw", withdraw] as const)
          : draw < 75
            ? (["decide", decide] as const)
            : draw < 77
              ? (["ask", ask] as const)
              : draw < 81
                ? (["amend", amend] as const)
                : draw < 84
                  ? (["correct", correct] as const)
                  : draw < 90
                    ? (["merge", merge] as const)
                    : draw < 94
                      ? (["revise", () => revise(i)] as const)
                      : draw < 97
                        ? (["learn", learn] as const)
                        : (["reanalyse", again] as const);
    await act();
    counts[name] = (counts[name] ?? 0) + 1;
  }
  return counts;
}

function noiseOf(chance: (n: number) => number) {
  const level = { value: 38 + chance(10), unit: "dB" };
  const distance = { value: 1 + chance(2), unit: "m" };
  const meter = ["class_2", "phone", "stated_by_maker"][chance(3)];
  const background = chance(3) ? {} : { background: { value: level.value - 2 - chance(8), unit: "dB" } };
  return { quantity: "L_pA", level, distance, meter, ...background };
}
