import type { BeamData } from '../charts/inputs.js';

/** One figure of a page, as written. */
export interface PageFigure {
  readonly label: string;
  readonly value: string;
  readonly note?: string;
  readonly assumed?: boolean;
}

/** What a builder takes to the field for the first flight. Everything is written by the caller, in the units preferred. */
export interface FirstFlightData {
  readonly aircraft: string;
  readonly place: string;
  readonly date: string;
  readonly configuration?: string;
  readonly balance: BeamData;
  /** Range and where to put the balance point, in words. */
  readonly balanceWords: string;
  /** Stall, least power, flown, best range, limit. */
  readonly speeds: readonly PageFigure[];
  readonly throttle?: PageFigure;
  readonly wind?: PageFigure;
  readonly endurance?: PageFigure;
  /** Window per sky: label is the sky. */
  readonly sun: readonly PageFigure[];
  /** What is only assumed, nothing measured. */
  readonly assumed: readonly string[];
  readonly cautions: readonly string[];
  /** Version, time of printing. */
  readonly footer?: string;
}
