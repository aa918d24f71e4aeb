/** Panels one above the other over operations in order, or over periods: finished numbers. */
export interface Monitoring {
  /** What each place across is called, from the first on: a month, a quarter, a number. */
  readonly places: readonly string[];
  /** What lies across: "operations in order". */
  readonly across: string;
  readonly panels: readonly MonitoringPanel[];
}

/** Places count from 1; a line may start at 0, before the first. */
export interface MonitoringPanel {
  /** What is drawn, and what tells its lines apart: "cumulative rate; dashed: the last 20". */
  readonly title: string;
  readonly kind: "share" | "number";
  readonly lines: readonly MonitoringLine[];
  readonly dots: readonly MonitoringDot[];
  /** Limits that change from place to place; null where there is none. */
  readonly band?: readonly {
    readonly at: number;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
  readonly references: readonly MonitoringReference[];
  /** Where a limit was passed. */
  readonly signals: readonly MonitoringSignal[];
  /** Where something changed or was set back. */
  readonly breaks: readonly { readonly at: number; readonly label: string }[];
}

export interface MonitoringLine {
  readonly points: readonly { readonly at: number; readonly value: number }[];
  readonly isDashed?: boolean;
}

export interface MonitoringDot {
  readonly at: number;
  readonly value: number;
  readonly tone: "failed" | "plain";
  readonly pick?: string;
}

export interface MonitoringReference {
  readonly value: number;
  /** Short: it stands at the right of the plot. Absent where the title says it. */
  readonly label?: string;
  /** Stretch of places; the whole width unless said. */
  readonly from?: number;
  readonly to?: number;
}

export interface MonitoringSignal {
  readonly at: number;
  readonly value: number;
  /** "2025-09-12". */
  readonly label: string;
  readonly pick?: string;
}
