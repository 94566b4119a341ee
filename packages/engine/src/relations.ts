import { aeroelasticRelations } from './aeroelastic/relations.js';
import { airRelations } from './air/relations.js';
import { arrayRelations } from './array/relations.js';
import { balanceRelations } from './balance/relations.js';
import { batteryRelations } from './battery/relations.js';
import { busRelations } from './bus/relations.js';
import { driveRelations } from './drive/relations.js';
import { lightRelations } from './light/relations.js';
import type { Relation } from './relation.js';
import { sectionRelations } from './section/relations.js';
import { shapeRelations } from './shape/relations.js';
import { structureRelations } from './structure/relations.js';
import { sunRelations } from './sun/relations.js';
import { wingRelations } from './wing/relations.js';

/** Every relation that can be asked for on its own, in the order in which light becomes flight. */
export const allRelations: readonly Relation[] = [
  ...sunRelations,
  ...airRelations,
  ...lightRelations,
  ...arrayRelations,
  ...batteryRelations,
  ...busRelations,
  ...driveRelations,
  ...sectionRelations,
  ...shapeRelations,
  ...wingRelations,
  ...balanceRelations,
  ...structureRelations,
  ...aeroelasticRelations,
];
