import { plusMinus } from "../pages/figures.ts";
import { inUnit } from "../pages/quantity.tsx";
import { idOf } from "../pages/submit/form-fields.ts";
import { FormReader } from "../pages/submit/form-reader.ts";
import { roomOfForm } from "../pages/submit/form-room.ts";
import { roomVolume } from "../trial-input.ts";
import { make } from "./form-state.ts";
import { readRoom } from "./read-trial.ts";

/** The room's volume in both units, as soon as the sides or the volume can be read. */
export function showVolume(fields: ReadonlyMap<string, string>): void {
  const id = "room-holds";
  const place = document.getElementById(idOf("room.volume"))?.closest(".fields");
  if (!place) return;
  if (!document.getElementById(id)) place.after(make("p", { id, class: "hint" }));
  document.getElementById(id)!.textContent = volumeWords(fields);
}

function volumeWords(fields: ReadonlyMap<string, string>): string {
  try {
    const { value, u } = roomVolume(readRoom(roomOfForm(new FormReader(fields)))).volumeM3;
    const volume = { value, low: value - 2 * u, high: value + 2 * u, unit: "m3" };
    return `Air in the room: ${plusMinus(volume)} m³, which is ${plusMinus(inUnit(volume, "[cft_i]"))} cubic feet.`;
  } catch {
    return ""; // not all of it is there yet
  }
}

/** Fills in how far local time is ahead of UTC on the day of the test, unless it was chosen by hand. */
export function fillOffset(startMs: number | null): void {
  const time = document.getElementById(idOf("performed_at")) as HTMLInputElement;
  const offset = document.getElementById(idOf("performed_offset")) as HTMLSelectElement;
  if (startMs !== null && time.value === "") {
    time.value = new Date(startMs - new Date(startMs).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
  }
  if (time.value === "" || (offset.value !== "" && offset.dataset.filled !== offset.value)) return;
  const minutes = -new Date(time.value).getTimezoneOffset();
  const two = (n: number) => String(Math.floor(n)).padStart(2, "0");
  const found = `${minutes < 0 ? "-" : "+"}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;
  if (![...offset.options].some(({ value }) => value === found)) return;
  offset.value = found;
  offset.dataset.filled = found;
}
