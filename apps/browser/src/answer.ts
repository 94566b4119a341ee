/** What page and workers say to each other: plain data, copied between threads. Times are hours after the first local midnight. */

export interface PlanEdit {
  /** Keys that lead to the value, as written in the file. */
  readonly path: readonly string[];
  /** As a person would write it; empty takes the key away. */
  readonly value: string;
}

export interface DayRequest {
  /** Texts of the files. */
  readonly design: string;
  readonly plan: string;
  /** Changes to the plan by the fields of the page, in order. */
  readonly edits: readonly PlanEdit[];
  /** 0 for the central case alone. */
  readonly samples: number;
  /** Asks, in place of the day, which change would help most. */
  readonly levers?: true;
}

export interface FileMessage {
  readonly severity: 'error' | 'warning' | 'note';
  /** From 1. */
  readonly line: number;
  readonly path: string;
  readonly text: string;
}

/** A value with the interval that should hold the truth nine times in ten. */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Stretch {
  readonly start: number;
  readonly end: number;
}

export interface SkyResult {
  readonly name: string;
  /** In words and tenths. */
  readonly confidence: string;
  /** Of the first day, by time. */
  readonly windows: readonly Stretch[];
  /** Ends of the longest window [h]; absent where there is none. */
  readonly start?: Band;
  readonly end?: Band;
  /** [h] */
  readonly carried: Band;
  /** [h] after launch; the horizon where not empty by then. */
  readonly endurance: Band;
  readonly emptyAt?: number;
  readonly fullAt?: number;
  /** 0 to 1. */
  readonly lowestCharge: Band;
  readonly lowestChargeAt: number;
  /** [h] */
  readonly leftAtDawn?: Band;
  readonly fullBeforeDusk: Band;
  readonly bestRatio: Band;
  readonly bestRatioAt: number;
  /** Income and need at the best time [W]. */
  readonly bestIncome: number;
  readonly bestNeed: number;
  /** Power that the converters could deliver, by step [W]. */
  readonly income: Float64Array;
  /** State of charge at the ends of the steps, 0 to 1. */
  readonly charge: Float64Array;
}

export interface LedgerLine {
  readonly label: string;
  readonly watts: number;
  /** Of the light on the cells. */
  readonly share: number;
  readonly isPart: boolean;
  readonly note: string;
}

export interface LedgerResult {
  readonly sky: string;
  readonly at: number;
  readonly light: number;
  readonly rows: readonly LedgerLine[];
}

export interface ContributionResult {
  readonly label: string;
  readonly origin: string;
  /** Change of the solar ratio by one standard uncertainty, relative. */
  readonly effect: number;
  readonly share: number;
  readonly measurement: string;
}

export interface AssumptionResult {
  readonly file: 'design' | 'day';
  readonly path: string;
  readonly value: string;
  readonly why: string;
}

/** One line of words about the aircraft in flight, with its value in words. */
export interface Fact {
  readonly label: string;
  readonly value: string;
}

export interface Finding {
  readonly text: string;
  readonly where: string;
  readonly remedy: string;
}

export interface DayResult {
  readonly aircraft: string;
  readonly placeText: string;
  readonly date: string;
  readonly clock: string;
  /** [h] */
  readonly launch: number;
  /** From launch to the end of the days computed [h]. */
  readonly horizon: number;
  /** Where the battery ends; absent without battery. */
  readonly hasBattery: boolean;
  readonly facts: readonly Fact[];
  readonly problems: readonly Finding[];
  readonly warnings: readonly Finding[];
  readonly measured: readonly string[];
  /** Ends of the steps [h]. */
  readonly times: Float64Array;
  /** By step [W]. */
  readonly need: Float64Array;
  /** Stretches of the days computed in which the sun is up [h]. */
  readonly daylight: readonly Stretch[];
  readonly skies: readonly SkyResult[];
  readonly ledger?: LedgerResult;
  readonly contributions: readonly ContributionResult[];
  readonly assumptions: readonly AssumptionResult[];
  readonly samples: number;
  /** Relative difference of the time carried between the steps of samples and of the central case. */
  readonly stepError: number;
}

/** One change that a builder can make, with what keeps the aircraft flyable already in it. */
export interface LeverResult {
  readonly label: string;
  /** 'battery.x: 17 mm', in order. */
  readonly edits: readonly string[];
  /** Text of the design file with all edits; absent where the change cannot be had. */
  readonly text?: string;
  /** Changes of the time carried and of the endurance [h], and of income over need. */
  readonly payoff?: { readonly carried: number; readonly endurance: number; readonly solarRatio: number };
  readonly problem: string;
}

export interface LeversResult {
  readonly sky: string;
  readonly levers: readonly LeverResult[];
}

export interface DayAnswer {
  readonly design: readonly FileMessage[];
  readonly plan: readonly FileMessage[];
  /** Text of the plan after the edits. */
  readonly planText: string;
  /** Absent where one of the files cannot be used. */
  readonly result?: DayResult;
  readonly levers?: LeversResult;
  /** Stages that ran and did not come from memory. */
  readonly stagesRun: readonly string[];
  /** In the worker [ms]. */
  readonly milliseconds: number;
}
