import type { DemoStep } from '../../classroom/demonstration.ts';
import { failure, type Result, success } from '../../geometry/result.ts';

export interface NoVideo {
  readonly kind: 'no-video';
  readonly why: string;
}

/** What this browser writes, best first. */
const VIDEO_TYPES = ['video/webm;codecs=vp9', 'video/webm;codecs=vp8', 'video/webm', 'video/mp4'] as const;
const SIZE = { width: 1280, height: 720 } as const;
const STEP_MS = 4000;

/** The type of video this browser writes, or null. */
export const videoType = (): string | null =>
  typeof MediaRecorder === 'undefined' || !('captureStream' in HTMLCanvasElement.prototype)
    ? null
    : (VIDEO_TYPES.find((type) => MediaRecorder.isTypeSupported(type)) ?? null);

/**
 * Records the steps as a video, some seconds for each; it takes as long as it plays.
 *
 * @param onStep - Told which step is being recorded, from 0.
 */
export async function recordVideo(
  steps: readonly { readonly step: DemoStep; readonly picture: ImageBitmap }[],
  onStep: (index: number) => void,
  stepMs: number = STEP_MS,
): Promise<Result<Blob, NoVideo>> {
  const type = videoType();
  if (type === null) {
    return failure({
      kind: 'no-video',
      why: 'This browser writes no video. Print the handout, or save its pictures.',
    });
  }
  const canvas = Object.assign(document.createElement('canvas'), SIZE);
  const context = canvas.getContext('2d')!;
  const recorder = new MediaRecorder(canvas.captureStream(12), {
    mimeType: type,
    videoBitsPerSecond: 2_500_000,
  });
  const parts: Blob[] = [];
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const stopped = new Promise<void>((resolve) => {
    recorder.onstop = () => resolve();
  });
  recorder.start();
  for (const [index, { step, picture }] of steps.entries()) {
    onStep(index);
    // A still canvas gives no frames: it is drawn again and again for as long as it is to be seen.
    for (const end = performance.now() + stepMs; performance.now() < end; ) {
      drawFrame(context, step, picture, index, steps.length);
      await new Promise((resolve) => setTimeout(resolve, 80));
    }
  }
  recorder.stop();
  await stopped;
  return success(new Blob(parts, { type: type.split(';')[0] ?? type }));
}

function drawFrame(
  context: CanvasRenderingContext2D,
  { title, words }: DemoStep,
  picture: ImageBitmap,
  index: number,
  count: number,
): void {
  const { width, height } = SIZE;
  context.fillStyle = '#17191b';
  context.fillRect(0, 0, width, height);
  const scale = Math.min((width * 0.6) / picture.width, height / picture.height);
  const [w, h] = [picture.width * scale, picture.height * scale];
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, (width * 0.6 - w) / 2, (height - h) / 2, w, h);
  const left = width * 0.6 + 32;
  const most = width - left - 32;
  context.fillStyle = '#a9a599';
  context.font = '20px "Source Sans 3", sans-serif';
  context.fillText(`${index + 1} of ${count}`, left, 64);
  context.fillStyle = '#ece8df';
  let y = wrapped(context, title, '600 38px "Source Serif 4", serif', left, 112, most, 46);
  y = wrapped(context, words, '25px "Source Sans 3", sans-serif', left, y + 20, most, 36);
  context.fillStyle = '#a9a599';
  wrapped(
    context,
    'Education only. Not a medical device.',
    '18px "Source Sans 3", sans-serif',
    left,
    height - 40,
    most,
    24,
  );
}

/** Sets text in lines and tells where the next line would begin. */
function wrapped(
  context: CanvasRenderingContext2D,
  text: string,
  font: string,
  x: number,
  top: number,
  most: number,
  leading: number,
): number {
  context.font = font;
  let line = '';
  let y = top;
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && context.measureText(longer).width > most) {
      context.fillText(line, x, y);
      y += leading;
      line = word;
    } else line = longer;
  }
  context.fillText(line, x, y);
  return y + leading;
}
