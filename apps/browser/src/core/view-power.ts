import { type PowerPoint, type PowerReport, powerReport } from '@noonwing/verdict/power-report';
import { type LaterJob, refusedAs } from './job.js';
import type { PowerPointView, PowerView } from './view.js';
import { driveView } from './view-balance.js';

const pointView = ({ airspeed, flight, levelPower, climbRate, sinkRate, glideRatio }: PowerPoint): PowerPointView => {
  const { trim, drive } = flight;
  return {
    airspeed,
    levelPower,
    drag: trim.drag,
    inducedDrag: trim.inducedDrag,
    profileDrag: trim.profileDrag,
    parasiteDrag: trim.parasiteDrag,
    liftCoefficient: trim.forces.liftCoefficient,
    pitchingMomentCoefficient: trim.forces.pitchingMomentCoefficient,
    alpha: trim.alpha,
    control: trim.control,
    drive: driveView(drive),
    ...(climbRate === undefined ? {} : { climbRate }),
    sinkRate,
    glideRatio,
  };
};

/** Level power against airspeed as plain data. */
export const powerView = (report: PowerReport): PowerView => ({
  bank: report.bank,
  stallSpeed: report.stallSpeed,
  steadyLoads: report.steadyLoads,
  points: report.points.map(pointView),
  ...(report.held === undefined ? {} : { held: report.held }),
  ...(report.leastPower === undefined ? {} : { leastPower: pointView(report.leastPower) }),
  ...(report.bestRange === undefined ? {} : { bestRange: pointView(report.bestRange) }),
  ...(report.leftOut === undefined ? {} : { leftOut: report.leftOut.reason }),
});

export const answer: LaterJob<'power'>['answer'] = async (request, ready, tools) => {
  const found = tools.central(ready);
  const bank = request.bank ?? found.flight?.bank ?? found.prepared.conditions.bank;
  const report = powerReport(found.prepared, bank, request.points);
  return report.ok ? { kind: 'power', view: powerView(report.value) } : refusedAs(report);
};
