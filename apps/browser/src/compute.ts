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
import { createStages, shareUnchanged, type Verdict, verdict } from '@noonwing/verdict';
import type { DayAnswer, DayRequest, FileMessage, PlanEdit } from './answer.js';
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
    aircraft = shareUnchanged(aircraft, completed.aircraft);
    plan = shareUnchanged(plan, completedDay.plan);
    const found: Verdict = verdict(aircraft, plan, noFiles, stages, {
      samples: request.samples,
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
