import { beforeEach, onTestFinished, vi } from 'vitest';

/**
 * Node has no canvas: in each test of the file a picture is made of nothing, and its address is counted.
 *
 * @returns Addresses of small pictures that were made and not given back.
 */
export function withoutCanvas(): ReadonlySet<string> {
  const pictures = new Set<string>();
  beforeEach(() => {
    pictures.clear();
    vi.stubGlobal('ImageData', function imageData(width: number, height: number) {
      return { data: new Uint8ClampedArray(width * height * 4) };
    });
    vi.stubGlobal('OffscreenCanvas', function canvas() {
      return {
        getContext: () => ({ putImageData: () => undefined, drawImage: () => undefined }),
        convertToBlob: async () => new Blob(),
      };
    });
    const make = vi.spyOn(URL, 'createObjectURL').mockImplementation(() => {
      const address = `blob:${make.mock.calls.length}`;
      pictures.add(address);
      return address;
    });
    vi.spyOn(URL, 'revokeObjectURL').mockImplementation((address) => void pictures.delete(address));
    onTestFinished(() => {
      vi.unstubAllGlobals();
      vi.restoreAllMocks();
    });
  });
  return pictures;
}
