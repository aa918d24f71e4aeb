import type { Funnel } from "../../src/charts/funnel.ts";
import type { Monitoring } from "../../src/charts/monitoring.ts";

/** Invented numbers in the shapes that the charts of people and of change take. */
export const exampleFunnel: Funnel = {
  scale: "share",
  target: 0.13,
  targetLabel: "target 13.0%",
  across: "eyes whose outcome is known",
  counted: "failed",
  limits: [
    {
      level: 0.95,
      points: [
        { size: 20, lower: 0, upper: 0.272 },
        { size: 100, lower: 0.062, upper: 0.195 },
      ],
    },
    {
      level: 0.998,
      points: [
        { size: 20, lower: 0, upper: 0.386 },
        { size: 100, lower: 0.032, upper: 0.239 },
      ],
    },
  ],
  points: [
    { size: 40, value: 0.1, isOwn: false },
    { size: 96, value: 0.21, isOwn: true, label: "A", pick: "u1:failed" },
  ],
};

export const exampleMonitoring: Monitoring = {
  places: ["2025-01", "2025-02", "2025-02", "2025-03", "2025-05"],
  across: "operations in order, by month",
  panels: [
    {
      title: "sum of log-likelihood: up for doubled odds, down for halved odds",
      kind: "number",
      lines: [
        {
          points: [
            { at: 0, value: 0 },
            { at: 1, value: 0.6 },
            { at: 2, value: 1.2 },
            { at: 3, value: 2.4 },
          ],
        },
      ],
      dots: [
        { at: 1, value: 0.6, tone: "failed", pick: "eye0" },
        { at: 3, value: 2.4, tone: "failed", pick: "eye2" },
      ],
      references: [
        { value: 2.3, label: "limit 2.30" },
        { value: -2.1, label: "limit 2.10" },
      ],
      signals: [{ at: 3, value: 2.4, label: "2025-02-20", pick: "worse:2" }],
      breaks: [{ at: 3.5, label: "reset 2025-03-01" }],
    },
    {
      title: "failure rate",
      kind: "share",
      lines: [],
      dots: [{ at: 2, value: 0.2, tone: "failed" }],
      band: [
        { at: 2, lower: null, upper: 0.2 },
        { at: 3, lower: 0.01, upper: 0.9 },
      ],
      references: [{ value: 0.13, label: "13.0%" }],
      signals: [],
      breaks: [],
    },
  ],
};
