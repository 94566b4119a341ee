import type { ValueEdit } from '../../../core/commands.js';

/** What a structure starts with, by how the surface is built: usual materials and sizes, each to be corrected (common practice, no source). */
const starts: Readonly<Record<string, readonly (readonly [key: string, text: string])[]>> = {
  'foam sheet': [
    ['core', 'extruded polystyrene foam'],
    ['spars.strip.kind', 'strip'],
    ['spars.strip.material', 'carbon strip'],
    ['spars.strip.width', '1 mm assumed'],
    ['spars.strip.height', '4 mm assumed'],
    ['spars.strip.chord station', '30 %'],
    ['cells', 'floating'],
  ],
  foam: [
    ['core', 'expanded polystyrene foam'],
    ['spars.tube.kind', 'tube'],
    ['spars.tube.material', 'carbon tube'],
    ['spars.tube.width', '8 mm assumed'],
    ['spars.tube.height', '6 mm assumed'],
    ['spars.tube.chord station', '30 %'],
    ['cells', 'floating'],
  ],
  'built-up': [
    ['core', 'hollow'],
    ['d box.layers[1].material', 'balsa'],
    ['d box.layers[1].thickness', '1.5 mm assumed'],
    ['d box.to', '30 %'],
    ['ribs.material', 'balsa'],
    ['ribs.thickness', '2 mm assumed'],
    ['ribs.spacing', '60 mm assumed'],
    ['spars.main.kind', 'caps'],
    ['spars.main.material', 'carbon strip'],
    ['spars.main.width', '6 mm assumed'],
    ['spars.main.height', '0.8 mm assumed'],
    ['spars.main.web', 'balsa'],
    ['spars.main.chord station', '30 %'],
    ['cells', 'floating'],
  ],
  moulded: [
    ['core', 'hollow'],
    ['skins[1].material', 'glass fabric 49 g/m2 with epoxy'],
    ['skins[1].angle', '45 deg'],
    ['skins[2].material', 'structural PMI foam'],
    ['skins[2].thickness', '1.5 mm assumed'],
    ['skins[3].material', 'glass fabric 49 g/m2 with epoxy'],
    ['spars.main.kind', 'caps'],
    ['spars.main.material', 'carbon strip'],
    ['spars.main.width', '10 mm assumed'],
    ['spars.main.height', '1 mm assumed'],
    ['spars.main.web', 'balsa'],
    ['spars.main.chord station', '33 %'],
    ['cells', 'floating'],
  ],
};

/** Edits that describe a structure of usual kind under a path. */
export const structureStart = (path: string, construction: string): readonly ValueEdit[] =>
  (starts[construction] ?? starts.foam!).map(([key, text]) => ({ path: `${path}.${key}`, text }));
