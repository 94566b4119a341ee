export interface CanvasWatch {
  /** False while nobody can see it, or its graphics memory is gone. */
  readonly canDraw: () => boolean;
  /** [px of CSS] */
  readonly size: () => readonly [width: number, height: number];
  /** Nothing is drawn after it. */
  readonly release: () => void;
}

export interface CanvasEvents {
  /** The size changed: a canvas that changes its size is empty until it is drawn. */
  readonly onSize: (size: readonly [width: number, height: number]) => void;
  /** It came into sight, or its memory came back. */
  readonly onSeen: () => void;
  /** The graphics context went away (true) or came back (false). */
  readonly onLost: (lost: boolean) => void;
}

/** Follows the size of a canvas, whether it is in sight, and its graphics context. */
export function watchCanvas(canvas: HTMLCanvasElement, { onSize, onSeen, onLost }: CanvasEvents): CanvasWatch {
  let size: readonly [number, number] = [0, 0];
  let onScreen = true;
  let lost = false;
  const sizes = new ResizeObserver(() => {
    size = [canvas.clientWidth, canvas.clientHeight];
    if (size[0] > 0 && size[1] > 0) onSize(size);
  });
  const sight = new IntersectionObserver((entries) => {
    onScreen = entries.at(-1)!.isIntersecting;
    onSeen();
  });
  const contextLost = (event: Event) => {
    event.preventDefault();
    lost = true;
    onLost(true);
  };
  const contextBack = () => {
    lost = false;
    onLost(false);
    onSeen();
  };
  sizes.observe(canvas);
  sight.observe(canvas);
  document.addEventListener('visibilitychange', onSeen);
  canvas.addEventListener('webglcontextlost', contextLost);
  canvas.addEventListener('webglcontextrestored', contextBack);
  return {
    canDraw: () => onScreen && !lost && !document.hidden && size[0] > 0 && size[1] > 0,
    size: () => size,
    release: () => {
      lost = true;
      sizes.disconnect();
      sight.disconnect();
      document.removeEventListener('visibilitychange', onSeen);
      canvas.removeEventListener('webglcontextlost', contextLost);
      canvas.removeEventListener('webglcontextrestored', contextBack);
    },
  };
}
