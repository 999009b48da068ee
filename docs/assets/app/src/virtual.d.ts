/* Modules the bundling step makes, and the names the page and its classic scripts share. */

declare module "hd:worker" {
  /** The bundled text of worker.js: one classic script. */
  const text: string;
  export default text;
}

declare module "hd:build" {
  const build: {
    build: string;
    pyodide: string;
    lock: object;
    files: Record<string, { bytes: number; gzip: number; sha256: string }>;
  };
  export default build;
}

declare module "hd:copy" {
  /** Every file of this build by path under the root: its hash and its length; and those kept at once. */
  const copy: { build: string; files: Record<string, [string, number]>; first: string[] };
  export default copy;
}

interface Window {
  /** The browser's own Worker, kept before the search shim for file:// replaces it. */
  handToDiscWorker?: typeof Worker;
  /** Set by first.js where the browser refuses storage; a stand-in that forgets is in its place. */
  handToDiscStorageRefused?: boolean;
  /** Runtime files as base64 of gzip, put there by payload.js (file:// only). */
  handToDiscPayload?: Record<string, string>;
  /** Called by every printed/<head>….js script. */
  handToDiscPrinted?: (printed: import("./types.js").Printed) => void;
  /** Set by chart.js, which is loaded with the first chart. */
  handToDiscChart?: (
    host: HTMLElement,
    data: import("./types.js").ChartData,
    pick: (x: number) => void,
  ) => { update(data: import("./types.js").ChartData): void; cursor(x: number): void; destroy(): void };
  /** Set by chart.js as well: draws a field over the disc into its host. */
  handToDiscField?: (host: HTMLElement, data: import("./types.js").FieldData) => void;
  /** Set by own-heads.js, which is loaded where heads are described. */
  handToDiscOwnHeads?: (site: import("./own/index.js").Site) => void;
  /** Set by qr-code.js, which is loaded when a code may be needed. */
  handToDiscQrCode?: (text: string) => string;
  /** Set by kiosk-settings.js in the folder of a kiosk (scripts/kiosk.py writes it). */
  handToDiscKiosk?: unknown;
  /** Set by teach.js, which is loaded where questions are asked and lessons shown. */
  handToDiscTeach?: (site: import("./teach/index.js").Site) => import("./teach/index.js").Teach;
  /** Set by head-view.js, which is loaded with the first moving view. */
  handToDiscHeadView?: (
    calculator: HTMLElement,
    stage: HTMLElement,
    enter: (field: string, text: string, moving?: boolean) => void,
  ) => { readonly solid: boolean; show(scene: any, latest?: boolean): void; rest(): void; where(): unknown; memory(): unknown };
  /** Set by assets/hd/public-url.js: where the site is published, or "". */
  handToDiscPublicUrl?: string;
}
