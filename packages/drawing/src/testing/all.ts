import * as drawing from '../index.js';
import type { Drawing, DrawOptions } from '../model.js';
import * as cells from './cell-fixtures.js';
import * as data from './fixtures.js';
import * as section from './section-fixtures.js';
import * as structure from './structure-fixtures.js';

/** Every drawing of the package from the invented data. */
export const all: readonly (readonly [name: string, draw: (options: DrawOptions) => Drawing])[] = [
  ['day', (options) => drawing.theDay(data.day, options)],
  ['day-stage', (options) => drawing.dayStage(data.day, options)],
  ['charge', (options) => drawing.chargeCourse(data.charge, options)],
  ['power', (options) => drawing.powerAgainstAirspeed(data.power, options)],
  ['polar', (options) => drawing.liftDragMoment(data.polar, options)],
  ['drive', (options) => drawing.driveMatch(data.drive, options)],
  ['beam', (options) => drawing.balanceBeam(data.beam, options)],
  ['date-hour', (options) => drawing.whereAndWhen(data.dateAndHour, options)],
  ['latitude-date', (options) => drawing.whereAndWhen(data.latitudeAndDate, options)],
  ['ledger', (options) => drawing.ledgerChain(data.ledger, options)],
  ['shares', (options) => drawing.uncertaintyShares(data.shares, options)],
  ['compare', (options) => drawing.comparedCurves(data.compare, options)],
  ['intervals', (options) => drawing.intervalBand(data.intervals, options)],
  ['spark', (options) => drawing.sparkline(data.spark, options)],
  ['three-view', (options) => drawing.threeView(data.aircraft, options)],
  ['plan', (options) => drawing.planView(data.aircraft, options)],
  ['plan-left', (options) => drawing.planView(data.aircraft, { ...options, noseLeft: true, selected: 'wing' })],
  ['wiring', (options) => drawing.wiringPlan(data.wiring, options)],
  ['limit-bands', (options) => drawing.limitBands(structure.limits, options)],
  ['section-cut', (options) => drawing.sectionCut(structure.cut, options)],
  ['lay-up-plan', (options) => drawing.layUpPlan(structure.plan, options)],
  ['under-load', (options) => drawing.underLoad(structure.load, options)],
  ['cell-strain', (options) => drawing.cellStrain(structure.strain, options)],
  ['layer-picture', (options) => drawing.layerPicture(section.layer, options)],
  ['cell-picture', (options) => drawing.cellPicture(cells.picture, options)],
  ['string-curve', (options) => drawing.stringCurve(cells.curve, options)],
  ['shade-course', (options) => drawing.shadeCourse(cells.shade, options)],
  ['first-flight', (options) => drawing.firstFlightPage(data.firstFlight, options)],
];
