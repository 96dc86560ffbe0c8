/** The version in package.json, put in by the build. */
declare const __RAYBEND_VERSION__: string;
