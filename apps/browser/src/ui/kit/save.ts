import type { Drawing } from '@noonwing/drawing';

/** Hands a file to the browser's downloads. */
export function saveBlob(name: string, type: string, content: string | Uint8Array | Blob): void {
  const blob = content instanceof Blob ? content : new Blob([content as BlobPart], { type });
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser reads the address after the click; some time later it is surely done.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Dots of a saved picture per px of the drawing, so that it is sharp on paper; common practice, no source. */
const sharpness = 3;

/** A standalone drawing as a picture. */
export async function savePng(name: string, { svg, size }: Pick<Drawing, 'svg' | 'size'>): Promise<void> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(size.width, size.height);
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = size.width * sharpness;
    canvas.height = size.height * sharpness;
    canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (blob !== null) saveBlob(name, 'image/png', blob);
  } finally {
    URL.revokeObjectURL(address);
  }
}
