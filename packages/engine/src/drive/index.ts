export * from './actuatorDisc.js';
export * from './bladeElement.js';
export * from './bladeSection.js';
export type {
  Drive,
  DriveConditions,
  DriveLosses,
  DriveState,
} from './drive.js';
export * from './match.js';
export * from './measuredPropeller.js';
export * from './motor.js';
export * from './motorEstimate.js';
export * from './propeller.js';
export * from './propellerDesign.js';
export * from './propellerGeometry.js';
export * from './propellerTable.js';
export * from './sectionBlade.js';
export * from './speedController.js';
export * from './staticRun.js';
export * from './throttle.js';
export * from './unpowered.js';
export * from './zeroLiftFromThrust.js';
