import {
  type CompleteAircraft,
  type CompletePlan,
  completeDesign,
  completePlan,
  editDesign,
  type FileDocument,
  type Message,
  readDayPlan,
  readDesign,
  removeFromDesign,
  type SectionFiles,
} from '@noonwing/design';
import { createStages, levers, type Stages, shareUnchanged, type Verdict, verdict } from '@noonwing/verdict';
import type { DayAnswer, DayRequest, FileMessage, LeversResult, PlanEdit } from './answer.js';
import { assumptionsOf, dayResult } from './day-result.js';

/** One object for ever, so that stages recognise it: the page has no coordinate files yet. */
const noFiles: SectionFiles = {};

export interface Computer {
  /**
   * Answers a request; what did not change since the last one is not computed again.
   * onShare - called between samples with the share done
   */
  readonly answer: (request: DayRequest, onShare?: (share: number) => void) => DayAnswer;
}

/** Computes answers and remembers the stages between them. now - clock [ms] */
export function createComputer(now: () => number): Computer {
  const stages = createStages();
  let aircraft: CompleteAircraft | undefined;
  let plan: CompletePlan | undefined;
  const answer: Computer['answer'] = (request, onShare = () => {}) => {
    const began = now();
    stages.clearTrace();
    const design = readDesign(request.design);
    const edited = editedPlan(request.plan, request.edits);
    const day = readDayPlan(edited.text);
    const messages = {
      design: design.messages.map(fileMessage),
      plan: [...edited.messages, ...day.messages.map(fileMessage)],
      planText: edited.text,
    };
    if (!design.ok || !day.ok || design.design === undefined || day.plan === undefined || edited.messages.length > 0) {
      return { ...messages, stagesRun: [], milliseconds: now() - began };
    }
    const completed = completeDesign(design.design);
    const completedDay = completePlan(day.plan);
    if (request.levers === true) {
      const found = leversOf(request.design, completedDay.plan, stages, onShare);
      return { ...messages, levers: found, stagesRun: [], milliseconds: now() - began };
    }
    aircraft = shareUnchanged(aircraft, completed.aircraft);
    plan = shareUnchanged(plan, completedDay.plan);
    const found: Verdict = verdict(aircraft, plan, noFiles, stages, {
      samples: request.samples,
      // What each input contributes takes as long as some samples: it comes with them.
      contributions: request.samples > 0,
      onProgress: (share) => {
        onShare(share);
        return true;
      },
    });
    const assumptions = [
      ...assumptionsOf('design', completed.assumptions),
      ...assumptionsOf('day', completedDay.assumptions),
    ];
    return {
      ...messages,
      result: dayResult(found, assumptions),
      stagesRun: stages.trace().flatMap(({ stage, reused }) => (reused ? [] : [stage])),
      milliseconds: now() - began,
    };
  };
  return { answer };
}

/** Payoffs of all levers under the first sky of the plan, best first. */
function leversOf(
  designText: string,
  plan: CompletePlan,
  stages: Stages,
  onShare: (share: number) => void,
): LeversResult {
  const onProgress = (done: number, of: number): boolean => {
    onShare(done / of);
    return true;
  };
  const report = levers({ designText, plan, files: noFiles, stages, onProgress });
  if ('ok' in report) {
    return { sky: '', levers: [{ label: 'no verdict yet', edits: [], problem: `${report.reason}; ${report.remedy}` }] };
  }
  return {
    sky: report.sky,
    levers: report.levers.map(({ label, edits, text, payoff, problem }) => ({
      label,
      edits: edits.map((edit) => (edit.text === undefined ? `without ${edit.path}` : `${edit.path}: ${edit.text}`)),
      ...(text === undefined ? {} : { text }),
      ...(payoff === undefined
        ? {}
        : {
            payoff: {
              carried: payoff.carried / 3600,
              endurance: payoff.endurance / 3600,
              solarRatio: payoff.solarRatio,
            },
          }),
      problem: problem === undefined ? '' : `${problem.reason}; ${problem.remedy}`,
    })),
  };
}

const fileMessage = ({ severity, line, path, found, expected, hint }: Message): FileMessage => ({
  severity,
  line,
  path,
  text: `found ${found}; expected ${expected}${hint === '' ? '' : `; ${hint}`}`,
});

/** The plan with the values of the fields in it; comments and everything else stay. */
function editedPlan(text: string, edits: readonly PlanEdit[]): { text: string; messages: FileMessage[] } {
  const messages: FileMessage[] = [];
  let current = text;
  for (const { path, value } of edits) {
    const { document } = readDayPlan(current);
    const result = value === '' ? removed(document, path) : editDesign(document, path, value);
    if (result.ok) current = result.text;
    else
      messages.push({ severity: 'error', line: 1, path: path.join('.'), text: `${result.reason}; ${result.remedy}` });
  }
  return { text: current, messages };
}

function removed(document: FileDocument, path: readonly string[]) {
  const result = removeFromDesign(document, path);
  // A key that is not there need not be removed.
  return result.ok ? result : { ok: true as const, text: document.text };
}
