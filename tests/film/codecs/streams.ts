/**
 * Streams of 16 × 12 pixels of 12 bits whose value at column x and row y is 16 (12 x + 5 y + 10), without loss,
 * written with dcmjs-codecs 0.0.8.
 */
const bytes = (base64: string) => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));

export const jpegLsStream = () =>
  bytes(
    '/9j/9wALEAAMABABAREA//gADQH//wASAEMBFABA/9oACAEBAAAAAFP6/y/193ved33Xc9x2/bdr2lZ1llBJ6nKapjLZTJZDHYzFYjDYSUGCwH9+fXx7enl4d3Z1dHNJ7k4uDe3NrY1tTS0M7MysinMbExMLAwL68vLq6uLi2tqatLS0suXDdu2atWjRmzUxkyZMWLFgwYL169cuXMtctWrVq1YsWK1atUqVMpUpUqWWWGGGGF1112SuuuusssssssqqqqyFVVVVFFFFFFFFFE2Ommta1rWta1rWpjD/2QA=',
  );

export const jpeg2000Stream = () =>
  bytes(
    '/0//UQApAAAAAAAQAAAADAAAAAAAAAAAAAAAEAAAAAwAAAAAAAAAAAABCwEB/1IADAAAAAIAAgQEAAH/XAAKQGBoaHBoaHD/ZAAlAAFDcmVhdGVkIGJ5IE9wZW5KUEVHIHZlcnNpb24gMi41LjD/kAAKAAAAAABOAAH/k8+gWAjxQs4ou8O0SztNwRQIwBvuDL8wwIw2nP39YQAAvUggmF9F0P5Af3gYHgmPS/Nr/eAwH2g4OUCOAL+QeEf/2Q==',
  );

export const htj2kStream = () =>
  bytes(
    '/0//UQApQAAAAAAQAAAADAAAAAAAAAAAAAAAEAAAAAwAAAAAAAAAAAABDwEB/1AACAACAAAACf9SAAwAAAABAAEEBEAB/1wAByCIiIiI/2QAFwABT3BlbkpQSCBWZXIgMC4xOC4yLv9VABAAYAAAAAAAgAAAAAAANP+QAAoAAAAAAIAAAv+TwAAvbr/+v/7f/T/9L/7v/lv/I/8V/wv/ff5z/zL/LX+lP9A//H/9n/z/ex/7P/1n/h//Af93/mn/L/8o/yN/mz/Lv/kr/F/7q/rv/Er+C796/zZfsX/VV+nf85X5i3wv/gPXr9Zf16/WXQgAxkIAMbEB/5AACgAAAAAANAEC/5PAACtgABaQfn5+fn5+54p6cYJ3AJ4ej8fj8Xj++ghAe/YhAey6AP/ZAA==',
  );

export const streamValues = Array.from(
  { length: 16 * 12 },
  (_, i) => 16 * (12 * (i % 16) + 5 * Math.floor(i / 16) + 10),
);
