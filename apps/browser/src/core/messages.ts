import type { CompleteAircraft, CompletePlan, SectionSources } from '@noonwing/design';
import type { KnownLimit } from '@noonwing/verdict';
import type { AssumptionView, HourView, LayoutsView, LeversView, PowerView, SweepView, VerdictView } from './view.js';
import type { ArrayView } from './view-array-types.js';
import type { BenchView } from './view-bench.js';
import type { LimitsView, StiffeningsView, UnderLoadView } from './view-limits-types.js';
import type {
  FlatsView,
  FlatsWish,
  SectionShapeView,
  SectionShapeWish,
  SectionView,
  SectionWish,
} from './view-section-types.js';

/** Texts that a computation reads: all that the worker is told, so that every result's inputs can be listed. */
export interface ComputeInput {
  readonly design: string;
  readonly plan: string;
  /** Section coordinate files by the path that the design names. */
  readonly sections: Readonly<Record<string, string>>;
  /** How fast the structure lets it fly, as last computed, where the flight comes near it. */
  readonly limit?: KnownLimit;
  /** Text of a store of computed polars of its sections; absent while the first estimate answers. */
  readonly polars?: string;
  /** Text of a store with the measured points of its sections that the project keeps; absent where it keeps none. */
  readonly measured?: string;
}

/** Computed polars of the sections of a design. */
export interface PolarsView {
  /** Text of a store; empty where there are none. */
  readonly text: string;
  /** Names of those that are not computed yet. */
  readonly missing: readonly string[];
}

/** Files that were read and can be computed with. */
export interface Ready {
  readonly aircraft: CompleteAircraft;
  readonly plan: CompletePlan;
  readonly assumptions: readonly AssumptionView[];
  readonly sections: SectionSources;
  readonly limit?: KnownLimit;
}

/** What page and workers say to each other. */
export type ComputeRequest =
  /** samples 0: the central case alone; read - these texts as read by the page, where it knows them, so that they are not read again */
  | { readonly kind: 'verdict'; readonly input: ComputeInput; readonly read?: Ready; readonly samples: number }
  /** hour - after the first local midnight [h]; heading - from north, clockwise [rad]; sky - index in the verdict */
  | {
      readonly kind: 'hour';
      readonly input: ComputeInput;
      readonly sky: number;
      readonly hour: number;
      readonly heading: number;
    }
  /** bank [rad]; that of the flight conditions where absent */
  | { readonly kind: 'power'; readonly input: ComputeInput; readonly bank?: number; readonly points?: number }
  | { readonly kind: 'levers'; readonly input: ComputeInput; readonly sky: number }
  /** Ways to lay and string the cells */
  | { readonly kind: 'layouts'; readonly input: ComputeInput; readonly sky: number }
  | { readonly kind: 'sweep'; readonly input: ComputeInput; readonly sky: number; readonly sweep: SweepView['kind'] }
  /** How fast it may fly, and its lay-up */
  | { readonly kind: 'limits'; readonly input: ComputeInput }
  /** Shape and strain at an airspeed [m/s] and load factor */
  | {
      readonly kind: 'underLoad';
      readonly input: ComputeInput;
      readonly airspeed: number;
      readonly loadFactor: number;
    }
  /** What would raise the limit speed */
  | { readonly kind: 'stiffenings'; readonly input: ComputeInput }
  /** Cells and strings over the day and at an hour, as `hour` */
  | {
      readonly kind: 'array';
      readonly input: ComputeInput;
      readonly sky: number;
      readonly hour: number;
      readonly heading: number;
    }
  /** A wing section with its boundary layer, bare and under cells */
  | ({ readonly kind: 'section'; readonly input: ComputeInput } & SectionWish)
  /** The same section in another shape */
  | ({ readonly kind: 'sectionShape'; readonly input: ComputeInput } & SectionShapeWish)
  /** A section for flat cells */
  | ({ readonly kind: 'flats'; readonly input: ComputeInput } & FlatsWish)
  /** Computed polars of its sections: those that are kept, and with `compute` all that can be had */
  | { readonly kind: 'polars'; readonly input: ComputeInput; readonly compute: boolean }
  /** Array readings of the design; trace - text of a current-voltage trace, empty for none */
  | { readonly kind: 'bench'; readonly input: ComputeInput; readonly trace: string }
  /** One relation on its own; inputs in SI by key. */
  | { readonly kind: 'figure'; readonly topic: string; readonly values: Readonly<Record<string, number | string>> };

export type RequestKind = ComputeRequest['kind'];

/** The files cannot be computed with, or the aircraft cannot do what was asked: expected, with the way out. */
export interface Refusal {
  readonly kind: 'refused';
  readonly reason: string;
  readonly where: string;
  readonly remedy: string;
}

export interface FigureResult {
  readonly title: string;
  readonly outputs: readonly {
    readonly key: string;
    readonly kind: string;
    readonly help: string;
    readonly value: number;
  }[];
}

interface Timed {
  /** In the worker [ms]. */
  readonly milliseconds: number;
  /** Stages that ran and did not come from memory. */
  readonly stagesRun: readonly string[];
}

export type ComputeResponse = Timed &
  (
    | { readonly kind: 'verdict'; readonly view: VerdictView }
    | { readonly kind: 'hour'; readonly view: HourView }
    | { readonly kind: 'power'; readonly view: PowerView }
    | { readonly kind: 'levers'; readonly view: LeversView }
    | { readonly kind: 'layouts'; readonly view: LayoutsView }
    | { readonly kind: 'sweep'; readonly view: SweepView }
    | { readonly kind: 'figure'; readonly view: FigureResult }
    | { readonly kind: 'array'; readonly view: ArrayView }
    | { readonly kind: 'bench'; readonly view: BenchView }
    | { readonly kind: 'limits'; readonly view: LimitsView }
    | { readonly kind: 'underLoad'; readonly view: UnderLoadView }
    | { readonly kind: 'stiffenings'; readonly view: StiffeningsView }
    | { readonly kind: 'section'; readonly view: SectionView }
    | { readonly kind: 'sectionShape'; readonly view: SectionShapeView }
    | { readonly kind: 'flats'; readonly view: FlatsView }
    | { readonly kind: 'polars'; readonly view: PolarsView }
    | Refusal
  );

/** Share done, 0 to 1. */
export type ComputeProgress = number;

/** What a channel's view is, by the kind of request. */
export interface ViewOf {
  readonly verdict: VerdictView;
  readonly hour: HourView;
  readonly power: PowerView;
  readonly levers: LeversView;
  readonly layouts: LayoutsView;
  readonly sweep: SweepView;
  readonly figure: FigureResult;
  readonly array: ArrayView;
  readonly bench: BenchView;
  readonly limits: LimitsView;
  readonly underLoad: UnderLoadView;
  readonly stiffenings: StiffeningsView;
  readonly section: SectionView;
  readonly sectionShape: SectionShapeView;
  readonly flats: FlatsView;
  readonly polars: PolarsView;
}
