import { type FormReader, filled } from "./form-reader.ts";

const VENTILATION = ["off", "natural", "mechanical", "unknown"] as const;
const FAN = ["off", "on", "unknown"] as const;

/** `room` of a trial: sides or the volume as they were written, in metres or feet. */
export function roomOfForm(form: FormReader): Record<string, unknown> | undefined {
  const feet = form.choice("room.unit", ["m", "ft"]) === "ft";
  const [length, volume] = feet ? ["[ft_i]", "[cft_i]"] : ["m", "m3"];
  const sides = {
    length: form.quantity("room.length", length, "room.sides_within"),
    width: form.quantity("room.width", length, "room.sides_within"),
    height: form.quantity("room.height", length, "room.sides_within"),
  };
  const given = Object.values(sides).filter((side) => side !== undefined).length;
  const whole = form.quantity("room.volume", volume, "room.volume_within");
  for (const field of ["length", "width", "height", "volume"] as const) {
    const size = field === "volume" ? whole : sides[field];
    if (size && !(size.value > 0)) form.complain(`room.${field}`, "More than 0 is meant.");
  }
  if (!whole && given === 0) form.complain("room.volume", "The room's size is needed: its three sides, or its volume.");
  for (const side of ["length", "width", "height"] as const) {
    if (given > 0 && sides[side] === undefined && !whole) form.complain(`room.${side}`, `The ${side} is missing.`);
  }
  if (whole && given > 0) form.complain("room.volume", "Give either the sides or the volume; clear the other.");
  return filled({
    label: form.text("room.label"),
    ...sides,
    displaced_volume: form.quantity("room.displaced", volume),
    volume: whole,
    ventilation: form.choice("room.ventilation", VENTILATION),
    mixing_fan: form.choice("room.mixing_fan", FAN),
    temperature: form.quantity("room.temperature", form.text("room.temperature_unit") ?? "Cel"),
    relative_humidity: form.quantity("room.humidity", "%"),
  });
}
