/** The small part of dcmjs that is used here; the package brings no types. */
declare module 'dcmjs' {
  /** One data element in the shape of the DICOM JSON model (PS3.18 F.2). */
  interface Element {
    readonly vr: string;
    readonly Value?: readonly unknown[];
  }

  type Elements = Readonly<Record<string, Element>>;

  class DicomDict {
    constructor(meta: Elements);
    meta: Elements;
    dict: Elements;
    write(options?: { readonly fragmentMultiframe?: boolean }): ArrayBuffer;
  }

  interface DictionaryEntry {
    readonly tag: string;
    readonly vr: string;
    readonly name: string;
  }

  const data: {
    readonly DicomDict: typeof DicomDict;
    readonly DicomMessage: {
      readFile(buffer: ArrayBuffer): DicomDict;
    };
    readonly DicomMetaDictionary: {
      /** By keyword. */
      readonly nameMap: Readonly<Record<string, DictionaryEntry | undefined>>;
      denaturalizeDataset(dataset: Readonly<Record<string, unknown>>): Elements;
      naturalizeDataset(elements: Elements): Record<string, unknown>;
    };
  };

  interface Logger {
    setLevel(level: string): void;
  }

  const log: Logger & { getLogger(name: string): Logger };

  export { data, log };
}
