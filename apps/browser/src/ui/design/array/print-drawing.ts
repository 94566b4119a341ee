import styles from './array.module.css';

/** Prints a drawing alone on its sheet: everything else of the page stays away from the paper. */
export function printDrawing(svg: string): void {
  const sheet = document.createElement('div');
  sheet.className = styles.sheet!;
  // Our own SVG, in which every word from data is escaped.
  sheet.innerHTML = svg;
  document.body.append(sheet);
  const away = () => sheet.remove();
  addEventListener('afterprint', away, { once: true });
  window.print();
}
