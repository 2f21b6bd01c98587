import fc from "fast-check";

const mostly = <T>(usual: fc.Arbitrary<T>, odd: readonly unknown[]): fc.Arbitrary<unknown> =>
  fc.oneof({ weight: 150, arbitrary: usual }, { weight: 1, arbitrary: fc.constantFrom(...odd) });
const quantity = (units: readonly string[]) =>
  fc.record(
    {
      value: mostly(fc.double({ min: 0.01, max: 400, noNaN: true }), [-3, 0, 1e300, 1e-14]),
      unit: mostly(fc.constantFrom(...units), ["parsec", ""]),
      u: mostly(fc.double({ min: 0.001, max: 3, noNaN: true }), [0, -1]),
    },
    { requiredKeys: ["value", "unit"] },
  );
const words = mostly(fc.constantFrom("a", " back room ", "Käfig", "x".repeat(80)), [
  "",
  "  ",
  "x".repeat(121),
  "a\u0000b",
  "\ud800",
  7,
]);
const volume = quantity(["m3", "[cft_i]", "ft3", "L", "m³"]);
const length = quantity(["m", "[ft_i]", "ft", "cm"]);
const time = quantity(["s", "us", "min", "ms"]);
const instant = mostly(
  fc.constantFrom(
    "2026-10-03T18:20:00+02:00",
    "2024-02-29T00:00Z",
    "2026-10-03T18:20:00.25-09:30",
    "2026-12-31T23:59:59Z",
  ),
  [
    "2026-02-30T10:00:00Z",
    "2025-02-29T10:00Z",
    "2026-10-03T18:20:00",
    "2026-10-03 18:20Z",
    "2026-13-01T10:00Z",
    "2026-10-03T24:00Z",
    "yesterday",
    3,
  ],
);
const runTime = mostly(
  fc.oneof(fc.double({ min: -10, max: 4000, noNaN: true }), fc.constantFrom("12:30:05", " 18:20 ")),
  ["", " ", "x".repeat(41), null],
);
const FAN = ["off", "on", "unknown"];
const AIR = ["off", "natural", "mechanical", "unknown"];
const optional = <T extends Record<string, fc.Arbitrary<unknown>>>(all: T, required: (keyof T)[] = []) =>
  fc.record(all, { requiredKeys: required as never[] });
const withOddKey = (one: fc.Arbitrary<unknown>) =>
  fc.tuple(one, fc.nat(300)).map(([value, n]) => (n === 0 ? { ...(value as object), extra: 1 } : value));

const conditions = {
  label: words,
  ventilation: mostly(fc.constantFrom(...AIR), ["shut"]),
  mixing_fan: mostly(fc.constantFrom(...FAN), [true]),
  temperature: quantity(["Cel", "[degF]", "K"]),
  relative_humidity: quantity(["%", "1"]),
};
const room = fc.oneof(
  withOddKey(optional({ ...conditions, volume }, ["volume"])),
  withOddKey(
    optional({ ...conditions, length, width: length, height: length, displaced_volume: volume }, [
      "length",
      "width",
      "height",
    ]),
  ),
  optional({ ...conditions, volume, length, width: length, height: length, displaced_volume: volume }),
);
const counter = withOddKey(
  optional({
    id: mostly(fc.constantFrom("c1", "c2"), ["", 3]),
    principle: mostly(fc.constantFrom("optical_counter", "photometer", "condensation_counter", "other"), ["laser"]),
    model: words,
    position: words,
    sample_flow: quantity(["L/min", "m3/h", "cm3/s"]),
    dead_time: time,
    max_concentration: quantity(["1/cm3", "1/L", "#/cc"]),
    smoothing: optional({ kind: mostly(fc.constantFrom("lag", "moving_mean"), ["none"]), time }, ["kind", "time"]),
  }),
);
const channel = optional(
  {
    column: mostly(fc.constantFrom("PM2.5", "0.3um"), [4]),
    id: mostly(fc.constantFrom("n1", "pm"), ["mass", "smoke", "", "constructor\u0001", "toString"]),
    quantity: mostly(fc.constantFrom("number", "mass", "raw"), ["weight"]),
    unit: mostly(fc.constantFrom("1/cm3", "ug/m3", ""), ["u".repeat(41), "a\u0007"]),
    from_um: mostly(fc.constantFrom(null, 0.3, 1), [0, "0.3", 1e5]),
    to_um: mostly(fc.constantFrom(null, 1, 2.5), [-1]),
    cumulative: mostly(fc.constantFrom("none", "above", "below"), ["both"]),
    ceiling: mostly(fc.constantFrom(1e4, 3.5), [0, -2]),
  },
  ["column", "quantity"],
);
const columns = optional(
  {
    t: optional(
      {
        column: fc.constantFrom("time", "t"),
        unit: mostly(fc.constantFrom("s", "min", "h", "datetime"), ["d"]),
        day_month: mostly(fc.constantFrom("dmy", "mdy"), ["ymd"]),
      },
      ["column"],
    ),
    channels: fc.array(channel, { minLength: 1, maxLength: 3 }),
  },
  ["channels"],
);
const run = withOddKey(
  optional(
    {
      role: mostly(fc.constantFrom("full_log", "background", "natural", "total"), ["cleaner"]),
      counter: words,
      file: mostly(fc.constantFrom("full_log", "natural"), ["", 5]),
      columns,
      performed_at: instant,
      mixing_fan: fc.constantFrom(...FAN),
      ventilation: fc.constantFrom(...AIR),
      from: runTime,
      to: runTime,
      marks: fc.array(
        optional(
          { event: mostly(fc.constantFrom("aerosol_end", "cleaner_on", "cleaner_off"), ["start"]), t: runTime },
          ["event", "t"],
        ),
        { maxLength: 3 },
      ),
      windows: fc.array(
        optional(
          {
            phase: mostly(fc.constantFrom("background", "natural", "total"), ["full_log"]),
            n: mostly(fc.nat(3), [1.5, 41, -1]),
            from: runTime,
            to: runTime,
          },
          ["phase", "from", "to"],
        ),
        { maxLength: 2 },
      ),
    },
    ["role", "file"],
  ),
);
const flow = quantity(["m3/h", "[cft_i]/min", "cfm"]);
const configuration = mostly(
  optional(
    {
      title: fc.constant("Box"),
      kind: fc.constant("user_built"),
      parts: fc.array(
        optional(
          {
            part: fc.constantFrom("fan", "filter"),
            count: fc.integer({ min: 1, max: 4 }),
            description: fc.constant("a part"),
            stated_flow: flow,
          },
          ["part", "count", "description"],
        ),
        { minLength: 1, maxLength: 3 },
      ),
      settings: fc.array(optional({ label: fc.constantFrom("Low", "High"), stated_flow: flow }, ["label"]), {
        maxLength: 2,
      }),
    },
    ["title", "kind", "parts"],
  ),
  ["cfg-0000", "c".repeat(41), 3],
);
/** Trials as a client might send them: in each place now and then something that does not belong there. */
export const randomSentTrial = optional(
  {
    room,
    counters: fc.array(counter, { minLength: 1, maxLength: 2 }),
    runs: fc.array(run, { minLength: 1, maxLength: 3 }),
    performed_at: instant,
    configuration,
    setting: mostly(fc.constantFrom("high", " Low "), ["s".repeat(61), 1]),
  },
  ["room", "runs"],
);
