import type { PlateSize } from './plate-view.ts';

/** Watches the size of the plate on the page and of the device's pixels. */
export class SizeWatch {
  private readonly resizes = new ResizeObserver(() => this.measure());
  private last = { width: 0, height: 0, ratio: 0 };

  /** @param onChange - Takes the size in CSS pixels, and how many of the device's make one of them. */
  constructor(
    private readonly root: HTMLElement,
    private readonly onChange: (size: PlateSize, ratio: number) => void,
  ) {}

  start(): void {
    this.resizes.observe(this.root);
    this.measure();
  }

  /**
   * Another zoom or another screen changes the device's pixels. Asking costs nothing in a frame loop that runs
   * anyway, and no event tells it in every case: a media query on the resolution was seen to stay silent.
   */
  onFrame(): void {
    if (window.devicePixelRatio !== this.last.ratio) this.measure();
  }

  destroy(): void {
    this.resizes.disconnect();
  }

  private measure(): void {
    const size = { width: this.root.clientWidth, height: this.root.clientHeight };
    if (size.width === 0 || size.height === 0) return;
    const ratio = window.devicePixelRatio;
    const { last } = this;
    if (size.width === last.width && size.height === last.height && ratio === last.ratio) return;
    this.last = { ...size, ratio };
    this.onChange(size, ratio);
  }
}
