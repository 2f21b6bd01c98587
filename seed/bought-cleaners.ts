import { type DemoCleaner, euros, m3PerH, watts } from "./demo-cleaner.ts";

function soundAt1m(level: number) {
  return { quantity: "L_pA", level: { value: level, unit: "dB(A)" }, distance: { value: 1, unit: "m" } };
}

/** What could be bought in the invented harbour town: makers and models that do not exist. */
export const BOUGHT_CLEANERS: readonly DemoCleaner[] = [
  {
    key: "tower",
    describedBy: "tidemark-pottery",
    coarseGain: 1,
    words: {
      title: "Room Tower 250",
      kind: "commercial",
      maker: "Invented Maker A",
      model: "Room Tower 250",
      parts: [
        { part: "fan", count: 1, description: "radial fan", stated_flow: m3PerH(310) },
        { part: "filter", count: 1, description: "ring filter", filter_grade: { system: "EN1822", grade: "E12" } },
      ],
      costs: [
        { item: "whole", money: euros(229, "2026-02-20") },
        { item: "filter_set", money: euros(49, "2026-02-20") },
      ],
      filter_life: { value: 12, unit: "mo" },
    },
    settings: [
      { trueCadrM3PerH: 58, words: { label: "sleep", stated_noise: soundAt1m(25), stated_power: watts(7) } },
      { trueCadrM3PerH: 163, words: { label: "2", stated_noise: soundAt1m(38), stated_power: watts(18) } },
      {
        trueCadrM3PerH: 252,
        words: { label: "4", stated_noise: soundAt1m(51), stated_power: watts(44), stated_flow: m3PerH(310) },
      },
    ],
  },
  {
    key: "column",
    describedBy: "attic-no-9",
    coarseGain: 1,
    words: {
      title: "Desk Column 90",
      kind: "commercial",
      maker: "Invented Maker B",
      model: "Desk Column 90",
      parts: [
        { part: "fan", count: 1, description: "axial fan", stated_flow: m3PerH(115) },
        { part: "filter", count: 1, description: "cartridge", filter_grade: { system: "EN1822", grade: "E11" } },
        { part: "ioniser", count: 1, description: "needle ioniser, switched off in every trial" },
      ],
      costs: [{ item: "whole", money: euros(69, "2026-05-02") }],
    },
    settings: [
      { trueCadrM3PerH: 34, words: { label: "low", stated_noise: soundAt1m(31), stated_power: watts(4) } },
      { trueCadrM3PerH: 87, words: { label: "high", stated_noise: soundAt1m(47), stated_power: watts(11) } },
    ],
  },
  {
    key: "workshop unit",
    describedBy: "slipway-coop",
    coarseGain: 1.05,
    words: {
      title: "Workshop Unit 600",
      kind: "commercial",
      maker: "Invented Maker C",
      model: "Workshop Unit 600",
      parts: [
        { part: "fan", count: 1, description: "ceiling-hung radial fan", stated_flow: m3PerH(900) },
        {
          part: "filter",
          count: 1,
          description: "pocket filter",
          filter_grade: { system: "ISO16890", grade: "ePM1 70%" },
        },
        { part: "filter", count: 1, description: "metal mesh in front" },
      ],
      costs: [{ item: "whole", money: euros(540, "2026-01-31") }],
    },
    settings: [
      { trueCadrM3PerH: 332, words: { label: "1", stated_noise: soundAt1m(52), stated_power: watts(70) } },
      { trueCadrM3PerH: 588, words: { label: "3", stated_noise: soundAt1m(63), stated_power: watts(140) } },
    ],
  },
];
