import { MARK_WORDS } from "../pages/charts/decay-plot.tsx";
import { writtenNumber } from "../pages/form/written-number.ts";
import { idOf, MARK_EVENTS, type MarkEvent, type Slot } from "../pages/submit/form-fields.ts";
import type { PreviewRun } from "../pages/submit/preview.tsx";
import type { AnalysisOut } from "../wire/analysis.ts";
import { make } from "./form-state.ts";

/** A drawing's plot: its edges in the drawing's own pixels, and the minutes at left and right edge. */
interface Plot {
  readonly svg: SVGSVGElement;
  readonly group: SVGGElement;
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Above each drawing a strip of grips, one a mark: moved by hand, by finger or by arrow keys. They write into the fields of
 * minutes, which hold what counts; a blank field lies where the analysis found the event.
 */
export function addGrips(preview: Element, runs: readonly PreviewRun[], phases: AnalysisOut["phases"]): void {
  for (const { run, slot } of runs) {
    if (slot === null) continue;
    for (const name of ["wide", "narrow"]) {
      const svg = preview.querySelector<SVGSVGElement>(`svg[aria-labelledby^="preview-${run}-${name}-"]`);
      const group = svg?.querySelector<SVGGElement>("[data-from]");
      if (!svg || !group) continue;
      const read = (key: string) => Number(group.dataset[key]);
      const [left, right, from, to] = [read("left"), read("right"), read("from"), read("to")];
      addStrip({ svg, group, width: svg.viewBox.baseVal.width, left, right, from, to }, name, slot, {
        run,
        found: foundIn(phases.filter((phase) => phase.run === run)),
      });
    }
  }
}

/** Minutes at which the analysis took each event to be. */
function foundIn(phases: AnalysisOut["phases"]): Partial<Record<MarkEvent, number>> {
  const natural = phases.find(({ phase }) => phase === "natural");
  const total = phases.find(({ phase }) => phase === "total");
  return {
    ...(natural && { aerosol_end: natural.from / 60 }),
    ...(total && { cleaner_on: total.from / 60, cleaner_off: total.to / 60 }),
  };
}

const HOW = "Pull a mark to where it belongs, or move it by arrow keys. Delete: where the log has it.";

interface Marked {
  readonly run: number;
  readonly found: Partial<Record<MarkEvent, number>>;
}

function addStrip(plot: Plot, name: string, slot: Slot, { run, found }: Marked): void {
  const grips = MARK_EVENTS.flatMap((event) => {
    const input = document.getElementById(idOf(`${slot}.mark.${event}`)) as HTMLInputElement | null;
    return input ? [makeGrip(plot, input, event, found[event] ?? null, `grip-${name}-${run}-${event}`)] : [];
  });
  if (grips.length === 0) return;
  const how = make("p", { class: "hint" }, HOW);
  const strip = make("div", { class: `strip ${name}` }, how, ...grips.map((grip) => make("div", {}, grip)));
  strip.style.maxWidth = `${plot.width}px`;
  plot.svg.before(strip);
}

function makeGrip(
  plot: Plot,
  input: HTMLInputElement,
  event: MarkEvent,
  found: number | null,
  id: string,
): HTMLElement {
  const { svg, group, width, left, right, to } = plot;
  const from = Math.max(0, plot.from);
  const step = to - from > 10 ? 0.1 : 0.02;
  const grip = make("div", {
    id,
    class: "grip",
    role: "slider",
    tabindex: "0",
    "aria-label": MARK_WORDS[event],
    "aria-valuemin": from.toFixed(2),
    "aria-valuemax": to.toFixed(2),
  });
  const line = document.createElementNS(svg.namespaceURI, "path") as SVGPathElement;
  line.setAttribute("class", "grip-line");
  group.append(line);

  const stated = () => writtenNumber(input.value, "min");
  const minutes = () => (Number.isFinite(stated()) ? stated() : (found ?? to));
  const show = () => {
    const isStated = Number.isFinite(stated());
    const at = Math.min(to, Math.max(plot.from, minutes()));
    const share = (at - plot.from) / (to - plot.from);
    const x = left + share * (right - left);
    const written = `${minutes().toFixed(step < 0.1 ? 2 : 1)}`;
    const isKnown = isStated || found !== null;
    grip.textContent = isKnown ? `${MARK_WORDS[event]} ${written}` : `${MARK_WORDS[event]}: none`;
    grip.classList.toggle("stated", isStated);
    line.classList.toggle("stated", isStated);
    grip.setAttribute("aria-valuenow", at.toFixed(2));
    grip.setAttribute(
      "aria-valuetext",
      isKnown ? `${written} minutes, ${isStated ? "as marked" : "as found"}` : "not found",
    );
    grip.style.left = `${(100 * x) / width}%`;
    grip.style.transform = `translateX(${-100 * share}%)`;
    line.setAttribute("d", `M${x} ${group.dataset.top}V${group.dataset.bottom}`);
  };
  const move = (to_: number) => {
    input.value = Math.min(to, Math.max(from, to_)).toFixed(step < 0.1 ? 2 : 1);
    show();
  };
  const settle = () => input.dispatchEvent(new Event("input", { bubbles: true }));

  grip.addEventListener("pointerdown", (down) => {
    grip.setPointerCapture(down.pointerId);
    grip.dataset.held = "";
  });
  grip.addEventListener("pointermove", ({ clientX }) => {
    if (grip.dataset.held === undefined) return;
    const box = svg.getBoundingClientRect();
    const x = ((clientX - box.left) / box.width) * width;
    move(plot.from + ((x - left) / (right - left)) * (to - plot.from));
  });
  for (const end of ["pointerup", "pointercancel"]) {
    grip.addEventListener(end, () => {
      if (grip.dataset.held === undefined) return;
      delete grip.dataset.held;
      if (Number.isFinite(stated())) settle();
    });
  }
  grip.addEventListener("keydown", (press) => {
    const by = KEYS[press.key];
    if (by !== undefined) move(by === "from" ? from : by === "to" ? to : minutes() + by * step);
    else if (press.key === "Delete" || press.key === "Backspace") input.value = "";
    else return;
    press.preventDefault();
    show();
    settle();
  });
  input.addEventListener("input", () => grip.isConnected && show());
  show();
  return grip;
}

const KEYS: Readonly<Record<string, number | "from" | "to">> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -10,
  PageUp: 10,
  Home: "from",
  End: "to",
};
