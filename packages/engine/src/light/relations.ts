import type { Relation } from '../relation.js';
import { wallShade } from './wall-shade.js';

/** Relations of light: the shade of an upright fin on a cell beside it. */
export const lightRelations: readonly Relation[] = [
  {
    topic: 'shade',
    title: 'Shade of an upright fin on a level cell beside it, and the part of an even sky that it hides',
    inputs: [
      { key: 'height', kind: 'length', help: 'of the fin above the cell' },
      { key: 'finLength', kind: 'length', help: 'of the fin along the cell', default: 0.2 },
      { key: 'distance', kind: 'length', help: 'from the edge of the cell to the fin', default: 0.01 },
      { key: 'offset', kind: 'length', help: 'middle of the fin aft of that of the cell', default: 0 },
      { key: 'cellLength', kind: 'length', help: 'of the cell along the fin', default: 0.125 },
      { key: 'cellWidth', kind: 'length', help: 'of the cell away from the fin', default: 0.125 },
      { key: 'elevation', kind: 'angle', help: 'of the sun', default: Math.PI / 4 },
      { key: 'bearing', kind: 'angle', help: 'of the sun ahead of straight behind the fin', default: 0 },
    ],
    outputs: [
      { key: 'shaded', kind: 'ratio', help: 'of the cell in the shadow of the fin' },
      { key: 'skyHidden', kind: 'ratio', help: 'of the light of an even sky that the fin takes' },
    ],
    compute: (values) => {
      const number = (key: string) => Number(values[key]);
      const sizes = ['height', 'finLength', 'cellLength', 'cellWidth', 'elevation'].map(number);
      if (!sizes.every((value) => value > 0) || !(number('distance') >= 0) || !(number('elevation') <= Math.PI / 2)) {
        return {
          reason: 'sizes and the elevation of the sun must be positive, the distance not negative',
          remedy: 'state lengths above zero and an elevation between 0 and 90 degrees',
        };
      }
      const wall = {
        height: number('height'),
        length: number('finLength'),
        distance: number('distance'),
        offset: number('offset'),
        cellLength: number('cellLength'),
        cellWidth: number('cellWidth'),
      };
      return wallShade(wall, { elevation: number('elevation'), bearing: number('bearing') });
    },
  },
];
