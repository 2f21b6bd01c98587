import { type Filled, Optional, SectionLegend, Select, SelectField, TextField } from "./field.tsx";

const LENGTHS = [
  ["m", "metres"],
  ["ft", "feet"],
] as const;

/** The size of the room, and what moves its air. */
export function RoomFields({ filled }: { filled: Filled }) {
  const side = { filled, number: true } as const;
  const isFeet = filled.fields.get("room.unit") === "ft";
  return (
    <fieldset>
      <SectionLegend>The room</SectionLegend>
      <div class="fields">
        <SelectField
          name="room.unit"
          filled={filled}
          choices={LENGTHS.map(([unit, words]) => [unit, `${words}, cubic ${words}`])}
        />
      </div>
      <div class="fields sides">
        <TextField name="room.length" {...side} />
        <TextField name="room.width" {...side} />
        <TextField name="room.height" {...side} />
      </div>
      <div class="fields">
        <TextField
          name="room.volume"
          label="or the volume of its air"
          {...side}
          hint={
            "The rate is the volume times how much faster the air clears: a volume 5\u00a0% too large makes a rate 5\u00a0% too high."
          }
        />
      </div>
      <Optional
        words="How well the size is known, and what stands in the room"
        filled={filled}
        holds={(name) => /^room\.(sides_within|volume_within|displaced)$/.test(name)}
      >
        <div class="fields">
          <TextField
            name="room.sides_within"
            {...side}
            hint={`In ${isFeet ? "feet" : "metres"}, in 19 of 20 cases. Left blank, three sides give the volume to 4\u00a0%.`}
          />
          <TextField
            name="room.volume_within"
            {...side}
            hint={"Cubic. Left blank, a volume counts as an estimate, right within 10\u00a0%."}
          />
          <TextField
            name="room.displaced"
            {...side}
            hint="Cubic. Taken off the sides' volume: the cleaner clears only the air."
          />
        </div>
      </Optional>
    </fieldset>
  );
}

/** What else is asked of the room; not needed for a first look. */
export function RoomConditions({ filled }: { filled: Filled }) {
  return (
    <div class="fields">
      <TextField
        name="room.label"
        most={80}
        filled={filled}
        hint="The same name in each test made there. Tests in other rooms tell more than another one in this."
      />
      <SelectField
        name="room.ventilation"
        filled={filled}
        choices={[
          ["", "not known"],
          ["off", "off, windows and doors shut"],
          ["natural", "windows or gaps"],
          ["mechanical", "a ventilation system runs"],
        ]}
        hint="It clears the air as well, in both decays alike."
      />
      <SelectField
        name="room.mixing_fan"
        filled={filled}
        choices={[
          ["", "not known"],
          ["on", "on the whole time"],
          ["off", "none"],
        ]}
        hint="Without one the counter may see another air than the cleaner."
      />
      <TextField
        name="room.temperature"
        number
        filled={filled}
        beside="room.temperature_unit"
        unit={
          <Select
            name="room.temperature_unit"
            filled={filled}
            aria="Unit of the temperature"
            choices={[
              ["Cel", "°C"],
              ["[degF]", "°F"],
            ]}
          />
        }
      />
      <TextField name="room.humidity" number filled={filled} />
    </div>
  );
}
