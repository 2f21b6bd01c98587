import { INTEREST_WORDS } from "../figures.ts";
import {
  type Filled,
  Optional,
  RadioField,
  SectionLegend,
  Select,
  SelectField,
  TextField,
  TickField,
} from "./field.tsx";
import { INTERESTS, noiseRows } from "./form-conditions.ts";
import { MOST_NOISE } from "./form-fields.ts";
import { FormReader } from "./form-reader.ts";
import { RoomConditions } from "./room-fields.tsx";

/** Who paid: asked of everybody, answered by nobody else. */
export function InterestFields({ filled }: { filled: Filled }) {
  return (
    <RadioField
      name="interest"
      wide
      filled={filled}
      hint="Shown beside the result wherever it stands, so that readers can judge it. A test by a maker is welcome, and marked as one."
      choices={INTERESTS.map((interest) => [interest, INTEREST_WORDS[interest]!])}
    />
  );
}

/** When the test was made and with what in the air; the rest may be left out. */
export function TestFields({ filled }: { filled: Filled }) {
  return (
    <fieldset>
      <SectionLegend>The test</SectionLegend>
      <div class="fields">
        <TextField name="performed_at" type="datetime-local" filled={filled} />
        <SelectField
          name="performed_offset"
          filled={filled}
          choices={[
            ["", "choose"],
            ...OFFSETS.map(
              (offset) => [offset, offset === "+00:00" ? "UTC" : `UTC ${offset.replace("-", "−")}`] as const,
            ),
          ]}
        />
        <SelectField
          name="aerosol.kind"
          filled={filled}
          choices={[
            ["", "not stated"],
            ["oil_smoke", "oil smoke, fog of oil"],
            ["wood_smoke", "wood smoke"],
            ["incense", "incense"],
            ["salt", "salt from a nebuliser"],
            ["test_dust", "test dust"],
            ["shop_dust", "dust of a workshop"],
            ["ambient", "what was in the air"],
            ["other", "other"],
          ]}
          hint="Rates for one aerosol need not hold for another."
        />
        <TextField name="aerosol.note" most={500} filled={filled} />
      </div>
      <RoomConditions filled={filled} />
      <Optional words="The counter" filled={filled} holds={(name) => name.startsWith("counter.")}>
        <CounterFields filled={filled} />
      </Optional>
      <Optional
        words="Noise and power as measured"
        filled={filled}
        holds={(name) => name === "power" || /^noise\.\d+\.(level|distance|background)$/.test(name)}
      >
        <NoiseFields filled={filled} />
      </Optional>
      <Optional
        words="Specimen, filter, notes"
        filled={filled}
        holds={(name) => /^(specimen|filter\..*|trials_made|note|from_run|invented)$/.test(name)}
      >
        <MoreFields filled={filled} />
      </Optional>
    </fieldset>
  );
}

/** Offsets from UTC in use, by the quarter of an hour. */
const OFFSETS = [
  ..."-12:00 -11:00 -10:00 -09:30 -09:00 -08:00 -07:00 -06:00 -05:00 -04:00 -03:30 -03:00 -02:30 -02:00 -01:00 +00:00".split(
    " ",
  ),
  ..."+01:00 +02:00 +03:00 +03:30 +04:00 +04:30 +05:00 +05:30 +05:45 +06:00 +06:30 +07:00 +08:00 +08:45".split(" "),
  ..."+09:00 +09:30 +10:00 +10:30 +11:00 +12:00 +12:45 +13:00 +13:45 +14:00".split(" "),
];

function CounterFields({ filled }: { filled: Filled }) {
  return (
    <div class="fields">
      <SelectField
        name="counter.principle"
        filled={filled}
        choices={[
          ["", "not known"],
          ["optical_counter", "optical counter, by size"],
          ["photometer", "photometer, mass by light"],
          ["condensation_counter", "condensation counter"],
          ["other", "other"],
        ]}
      />
      <TextField name="counter.model" most={80} filled={filled} />
      <TextField name="counter.position" most={120} filled={filled} hint="Away from the cleaner's outlet." />
      <TextField
        name="counter.sample_flow"
        number
        filled={filled}
        hint="With the dead time it tells whether dense air was undercounted."
      />
      <TextField name="counter.dead_time" number filled={filled} />
      <TextField name="counter.max_concentration" number filled={filled} hint="Readings near it are left out." />
      <SelectField
        name="counter.smoothing"
        filled={filled}
        choices={[
          ["", "not known"],
          ["none", "none"],
          ["lag", "a lag"],
          ["moving_mean", "a moving mean"],
        ]}
        hint="A counter that averages shows a fast decay as a slower one."
      />
      <TextField name="counter.smoothing_time" number filled={filled} />
    </div>
  );
}

function NoiseFields({ filled }: { filled: Filled }) {
  const rows = noiseRows(new FormReader(filled.fields));
  const shown = Math.min(MOST_NOISE, (rows.at(-1) ?? -1) + 2);
  return (
    <>
      <div id="noise">
        {Array.from({ length: shown }, (_, n) => (
          <NoiseRow n={n} filled={filled} />
        ))}
      </div>
      <div class="fields">
        <TextField name="power" number filled={filled} hint="At the setting tested, by a meter at the plug." />
      </div>
    </>
  );
}

function NoiseRow({ n, filled }: { n: number; filled: Filled }) {
  const at = `noise.${n}` as const;
  return (
    <fieldset class="inner">
      <legend>Noise, reading {n + 1}</legend>
      <div class="fields">
        <SelectField
          name={`${at}.quantity`}
          filled={filled}
          choices={[
            ["L_pA", "sound pressure level, at a distance"],
            ["L_WA", "sound power level"],
          ]}
        />
        <TextField name={`${at}.level`} number filled={filled} />
        <TextField
          name={`${at}.background`}
          number
          filled={filled}
          hint="A quiet cleaner in a loud room is quieter than it reads."
        />
        <TextField
          name={`${at}.distance`}
          number
          filled={filled}
          beside={`${at}.distance_unit`}
          unit={
            <Select
              name={`${at}.distance_unit`}
              filled={filled}
              aria={`Unit of the distance, reading ${n + 1}`}
              choices={[
                ["m", "m"],
                ["ft", "ft"],
              ]}
            />
          }
        />
        <SelectField
          name={`${at}.meter`}
          filled={filled}
          choices={[
            ["unknown", "not known"],
            ["class_1", "class 1 meter"],
            ["class_2", "class 2 meter"],
            ["phone", "phone"],
            ["stated_by_maker", "stated by the maker"],
          ]}
        />
      </div>
    </fieldset>
  );
}

function MoreFields({ filled }: { filled: Filled }) {
  return (
    <div class="fields">
      <TextField name="specimen" most={120} filled={filled} hint="Two of one model may differ." />
      <SelectField
        name="filter.condition"
        filled={filled}
        choices={[
          ["", "not stated"],
          ["new", "new"],
          ["used", "used"],
          ["cleaned", "cleaned"],
          ["loaded", "loaded"],
        ]}
      />
      <TextField name="filter.hours" number filled={filled} />
      <TextField
        name="trials_made"
        number
        filled={filled}
        hint="Published or not: the best of ten says less than the only one."
      />
      <TextField
        name="from_run"
        most={60}
        filled={filled}
        hint="trl-…/runs/0, your own, in the same room with the same counter."
      />
      <TextField name="note" most={4000} filled={filled} wide />
      <TickField
        name="invented"
        label="Invented: made up for a demonstration, never to be pooled with real tests"
        filled={filled}
      />
    </div>
  );
}
