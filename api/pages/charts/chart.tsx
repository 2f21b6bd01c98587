import type { Child } from "hono/jsx";

/** What a drawing may use: its size in CSS pixels and the room around the plot. */
export interface Size {
  readonly name: "wide" | "narrow";
  readonly width: number;
  readonly height: number;
  readonly margin: { readonly top: number; readonly right: number; readonly bottom: number; readonly left: number };
}

interface Props {
  /** Unique in its page. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** Heights of the drawing on a wide and on a narrow screen. */
  readonly heights: readonly [wide: number, narrow: number];
  readonly left?: readonly [wide: number, narrow: number];
  /** Room above the plot: more where the words of the upright axis stand there. */
  readonly top?: number;
  readonly draw: (size: Size) => Child;
  readonly caption?: Child;
  /** The drawn figures as a table, for whoever cannot see the drawing or wants the numbers. */
  readonly table: Child;
}

const WIDTHS = { wide: 860, narrow: 330 };

/** How much room a drawing of a height has. */
export function sizeOf(name: Size["name"], height: number, { top = 14, left }: { top?: number; left?: number }): Size {
  const [right, aside] = name === "wide" ? [16, 64] : [8, 46];
  return { name, width: WIDTHS[name], height, margin: { top, right, bottom: 44, left: left ?? aside } };
}

/** A chart with its title, description, caption and table, drawn for a wide and a narrow screen: styles show one of them. */
export function Chart({ id, title, description, heights, left, top, draw, caption, table }: Props) {
  const size = (name: Size["name"], i: 0 | 1) => sizeOf(name, heights[i], { top, left: left?.[i] });
  return (
    <figure>
      {[size("wide", 0), size("narrow", 1)].map((each) => (
        <svg
          class={each.name}
          width={each.width}
          viewBox={`0 0 ${each.width} ${each.height}`}
          role="img"
          aria-labelledby={`${id}-${each.name}-title ${id}-${each.name}-desc`}
        >
          <title id={`${id}-${each.name}-title`}>{title}</title>
          <desc id={`${id}-${each.name}-desc`}>{description}</desc>
          {draw(each)}
        </svg>
      ))}
      {caption && <figcaption>{caption}</figcaption>}
      <details>
        <summary>The figures of this chart</summary>
        <div class="scroll" tabindex={0}>
          {table}
        </div>
      </details>
    </figure>
  );
}

/** Points as one path of round caps: a tenth of the bytes of as many circles. */
export function dots(points: readonly (readonly [x: number, y: number])[]): string {
  return points.map(([x, y]) => `M${round(x)} ${round(y)}h0`).join("");
}

/** A tenth of a pixel is what an eye can tell. */
export function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
