import { ChoiceField, FigureField, type Filled } from "./fields.tsx";

export const VENTILATION_WORDS = {
  unknown: "not known",
  off: "none: windows and doors shut",
  natural: "windows or gaps",
  mechanical: "a ventilation system runs",
};

/** Names of the fields of a room, for those that are wrong. */
export const SIZE_NAMES = {
  in: "Written in",
  length: "Length",
  width: "Width",
  height: "Height",
  area: "Floor area",
  volume: "Volume",
  within: "Right within",
  ventilation: "Ventilation",
  natural: "Natural loss",
};

/** What most readers leave as it is. */
const RARER = ["area", "volume", "within", "ventilation", "natural"];

/** The size of a room in metres or feet: sides, or floor and height, or its volume; and what clears it anyway. */
export function SizeFields({ asked }: { readonly asked: Filled }) {
  const open = RARER.some((name) => asked.texts[name] !== undefined || asked.complaints[name] !== undefined);
  return (
    <fieldset>
      <legend>The room</legend>
      <div class="fields">
        <ChoiceField
          asked={asked}
          name="in"
          label="Written in"
          of={{ m: "metres, m², m³", ft: "feet, square feet, cubic feet" }}
        />
      </div>
      <div class="fields sides">
        <FigureField asked={asked} name="length" label="Length" />
        <FigureField asked={asked} name="width" label="Width" />
        <FigureField asked={asked} name="height" label="Height" />
      </div>
      <details open={open}>
        <summary>Floor or volume instead, how well it is known, ventilation, natural loss</summary>
        <div class="fields">
          <FigureField asked={asked} name="area" label="Floor area, with the height above" />
          <FigureField asked={asked} name="volume" label="or the volume of its air, alone" />
          <FigureField
            asked={asked}
            name="within"
            label={"The volume is right within ±\u00a0%"}
            hint={
              "In 19 of 20 cases. Blank: about 4 where three sides are given, about 10 else (common practice, no source)."
            }
          />
          <ChoiceField
            asked={asked}
            name="ventilation"
            label="Ventilation"
            of={VENTILATION_WORDS}
            hint="It clears the air too."
          />
          <FigureField
            asked={asked}
            name="natural"
            label="Natural loss, per hour, if measured"
            hint="Of particles, the cleaner off: what settles and leaks. Blank: assumed by particle size and ventilation."
          />
        </div>
      </details>
    </fieldset>
  );
}
