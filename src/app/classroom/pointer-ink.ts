/** How long a stroke of the pointer stays, ms, and how long of that it takes to fade. */
const STAYS_MS = 2600;
const FADES_MS = 1100;
const STROKE = { ink: '#ff7ab8', casing: 'rgba(8, 10, 12, 0.6)' } as const;
/** The lit circle of the spotlight, as a share of the shorter side. */
const SPOT_SHARE = 0.2;
const DARKNESS = 'rgba(0, 0, 0, 0.78)';

interface InkPoint {
  readonly x: number;
  readonly y: number;
  readonly at: number;
}

/** What lies over the film in a demonstration: strokes of the pointer that fade, and a spotlight. */
export class PointerInk {
  private readonly context: CanvasRenderingContext2D;
  private strokes: InkPoint[][] = [];
  private drawing: InkPoint[] | null = null;
  private spot: { x: number; y: number } | null = null;
  private lit = false;
  private frame = 0;
  private readonly resizes = new ResizeObserver(() => this.draw());

  constructor(private readonly canvas: HTMLCanvasElement) {
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('this browser gives no canvas');
    this.context = context;
    this.resizes.observe(canvas);
  }

  setSpotlight(on: boolean): void {
    this.lit = on;
    this.draw();
  }

  /** Moves the spotlight; CSS pixels from the canvas's corner. */
  point(x: number, y: number): void {
    this.spot = { x, y };
    if (this.lit) this.draw();
  }

  /** Moves the spotlight from where it is, or from the middle. */
  nudge(dx: number, dy: number): void {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    const { x, y } = this.spot ?? { x: width / 2, y: height / 2 };
    this.point(Math.min(width, Math.max(0, x + dx)), Math.min(height, Math.max(0, y + dy)));
  }

  begin(x: number, y: number): void {
    this.drawing = [{ x, y, at: performance.now() }];
    this.strokes.push(this.drawing);
    this.run();
  }

  extend(x: number, y: number): void {
    this.drawing?.push({ x, y, at: performance.now() });
  }

  end(): void {
    this.drawing = null;
  }

  clear(): void {
    this.strokes = [];
    this.drawing = null;
    this.draw();
  }

  destroy(): void {
    cancelAnimationFrame(this.frame);
    this.resizes.disconnect();
  }

  /** Draws frame by frame for as long as there is ink. */
  private run(): void {
    cancelAnimationFrame(this.frame);
    const next = () => {
      const now = performance.now();
      this.strokes = this.strokes.filter(
        (stroke) => stroke === this.drawing || now - (stroke.at(-1)?.at ?? 0) < STAYS_MS,
      );
      this.draw();
      if (this.strokes.length > 0) this.frame = requestAnimationFrame(next);
    };
    this.frame = requestAnimationFrame(next);
  }

  private draw(): void {
    const { canvas, context } = this;
    const { clientWidth: width, clientHeight: height } = canvas;
    const ratio = window.devicePixelRatio;
    const [wide, high] = [Math.round(width * ratio), Math.round(height * ratio)];
    if (canvas.width !== wide || canvas.height !== high) Object.assign(canvas, { width: wide, height: high });
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    context.clearRect(0, 0, width, height);
    if (this.lit) this.drawSpotlight(width, height);
    context.lineCap = 'round';
    context.lineJoin = 'round';
    const now = performance.now();
    for (const stroke of this.strokes) {
      const age = stroke === this.drawing ? 0 : now - (stroke.at(-1)?.at ?? now);
      context.globalAlpha = Math.min(1, Math.max(0, (STAYS_MS - age) / FADES_MS));
      this.drawStroke(stroke, STROKE.casing, 11);
      this.drawStroke(stroke, STROKE.ink, 6);
    }
    context.globalAlpha = 1;
  }

  private drawSpotlight(width: number, height: number): void {
    const { context } = this;
    const { x, y } = this.spot ?? { x: width / 2, y: height / 2 };
    context.fillStyle = DARKNESS;
    context.beginPath();
    context.rect(0, 0, width, height);
    context.arc(x, y, SPOT_SHARE * Math.min(width, height), 0, 2 * Math.PI, true);
    context.fill();
  }

  private drawStroke(stroke: readonly InkPoint[], colour: string, lineWidth: number): void {
    const { context } = this;
    context.strokeStyle = colour;
    context.lineWidth = lineWidth;
    context.beginPath();
    for (const { x, y } of stroke) context.lineTo(x, y);
    // A tap is a dot.
    if (stroke.length === 1) context.lineTo((stroke[0]?.x ?? 0) + 0.1, stroke[0]?.y ?? 0);
    context.stroke();
  }
}
