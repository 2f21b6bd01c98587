import { type DemoCleaner, euros, m3PerH, watts } from "./demo-cleaner.ts";

const BOX_FAN = {
  part: "fan",
  count: 1,
  description: "box fan with fused plug",
  size: "50 cm",
  stated_flow: m3PerH(2600),
};
const CASE_FANS = { part: "fan", count: 6, description: "computer case fan", size: "140 mm", stated_flow: m3PerH(125) };
const MERV_13 = { system: "MERV", grade: "13", edition: "52.2-2017" };

function panels(count: number, grade: string) {
  const description = "pleated furnace panel, 50 mm deep";
  return { part: "filter", count, description, size: "50 x 50 cm", filter_grade: { ...MERV_13, grade } };
}

/** What the workshop and its neighbours built themselves. */
export const BUILT_CLEANERS: readonly DemoCleaner[] = [
  {
    key: "one panel",
    describedBy: "low-tide-press",
    coarseGain: 1.15,
    words: {
      title: "Box fan with one panel",
      kind: "user_built",
      arrangement: "one panel taped to the intake side",
      parts: [BOX_FAN, panels(1, "13")],
      costs: [
        { item: "whole", money: euros(58, "2026-01-10") },
        { item: "filter_set", money: euros(19, "2026-01-10") },
      ],
      filter_life: { value: 4, unit: "mo" },
    },
    settings: [
      { trueCadrM3PerH: 112, words: { label: "low", stated_power: watts(38) } },
      { trueCadrM3PerH: 186, words: { label: "high", stated_power: watts(61) } },
    ],
  },
  {
    key: "two panels",
    describedBy: "low-tide-press",
    derivedFrom: "one panel",
    coarseGain: 1.12,
    words: {
      title: "Box fan with two panels",
      kind: "user_built",
      arrangement: "two panels as a wedge on the intake side",
      parts: [BOX_FAN, panels(2, "13"), { part: "housing", count: 1, description: "cardboard floor and lid" }],
      costs: [{ item: "whole", money: euros(79, "2026-01-10") }],
    },
    settings: [{ trueCadrM3PerH: 334, words: { label: "high", stated_power: watts(62) } }],
  },
  {
    key: "four panels",
    describedBy: "tidemark-pottery",
    derivedFrom: "two panels",
    coarseGain: 1.1,
    words: {
      title: "Four-panel cube",
      kind: "user_built",
      arrangement: "four panels as the walls of a cube, the fan on top, blowing up, shrouded",
      parts: [BOX_FAN, panels(4, "13"), { part: "housing", count: 1, description: "plywood floor, cardboard shroud" }],
      costs: [
        { item: "whole", money: euros(118, "2026-02-01") },
        { item: "filter_set", money: euros(76, "2026-02-01") },
        { item: "electricity_year", money: euros(41, "2026-02-01") },
      ],
      filter_life: { value: 6, unit: "mo" },
    },
    settings: [
      { trueCadrM3PerH: 545, words: { label: "low", stated_power: watts(39) } },
      { trueCadrM3PerH: 905, words: { label: "high", stated_power: watts(63), stated_flow: m3PerH(2600) } },
    ],
  },
  {
    key: "four coarse panels",
    describedBy: "tidemark-pottery",
    derivedFrom: "four panels",
    coarseGain: 1.5,
    words: {
      title: "Four-panel cube, coarser filters",
      kind: "user_built",
      arrangement: "four panels as the walls of a cube, the fan on top, blowing up, shrouded",
      parts: [BOX_FAN, panels(4, "11"), { part: "housing", count: 1, description: "plywood floor, cardboard shroud" }],
      costs: [{ item: "whole", money: euros(94, "2026-02-01") }],
    },
    settings: [{ trueCadrM3PerH: 468, words: { label: "high", stated_power: watts(66) } }],
  },
  {
    key: "case fans",
    describedBy: "low-tide-press",
    coarseGain: 1.1,
    words: {
      title: "Six case fans on two panels",
      kind: "user_built",
      arrangement: "fans in the lid of a box, a panel on either side",
      parts: [CASE_FANS, panels(2, "13"), { part: "housing", count: 1, description: "birch plywood box" }],
      costs: [{ item: "whole", money: euros(132, "2026-03-05") }],
      plan_url: "https://plans.example/six-case-fans",
    },
    settings: [
      { trueCadrM3PerH: 176, words: { label: "7 V", stated_power: watts(5) } },
      { trueCadrM3PerH: 297, words: { label: "12 V", stated_power: watts(13) } },
    ],
  },
  {
    key: "case fans with fleece",
    describedBy: "low-tide-press",
    derivedFrom: "case fans",
    coarseGain: 1.14,
    words: {
      title: "Six case fans on two panels, fleece in front",
      kind: "user_built",
      arrangement: "fans in the lid of a box, a panel on either side, fleece over the panels",
      parts: [
        CASE_FANS,
        panels(2, "13"),
        { part: "filter", count: 2, description: "polyester fleece against clay dust" },
        { part: "housing", count: 1, description: "birch plywood box" },
      ],
      costs: [{ item: "whole", money: euros(139, "2026-03-05") }],
    },
    settings: [{ trueCadrM3PerH: 262, words: { label: "12 V", stated_power: watts(13) } }],
  },
  {
    key: "duct fan",
    describedBy: "net-loft",
    coarseGain: 1,
    words: {
      title: "Duct fan on a round cartridge",
      kind: "user_built",
      arrangement: "cartridge on the intake, fan inside a barrel",
      parts: [
        { part: "fan", count: 1, description: "duct fan, 150 mm", stated_flow: m3PerH(480) },
        { part: "filter", count: 1, description: "round cartridge", filter_grade: { system: "EN1822", grade: "H13" } },
        { part: "housing", count: 1, description: "fish barrel" },
      ],
      costs: [{ item: "whole", money: euros(148, "2026-04-12") }],
    },
    settings: [
      { trueCadrM3PerH: 151, words: { label: "step 3", stated_power: watts(24) } },
      { trueCadrM3PerH: 254, words: { label: "step 5", stated_power: watts(52) } },
    ],
  },
];
