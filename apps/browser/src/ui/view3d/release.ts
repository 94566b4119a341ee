import { InstancedMesh, type Material, type Object3D } from 'three';

interface Drawn extends Object3D {
  readonly geometry?: { dispose: () => void };
  readonly material?: Material | Material[];
}

/** Frees what the graphics memory holds of an object and of all below it, and takes it out of its parent. */
export function release(object: Object3D): void {
  object.traverse((each) => {
    const { geometry, material } = each as Drawn;
    geometry?.dispose();
    if (each instanceof InstancedMesh) each.dispose();
    for (const one of Array.isArray(material) ? material : material ? [material] : []) one.dispose();
  });
  object.removeFromParent();
}

/** Draws an object after the others, whatever its depth. */
export function late<T extends Object3D>(object: T, order: number): T {
  object.traverse((each) => {
    each.renderOrder = order;
  });
  return object;
}
