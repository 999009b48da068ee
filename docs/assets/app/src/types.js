/**
 * The shapes that cross the border to Python, written once. Numbers a reader typed are text all the way:
 * Python reads them, JavaScript only carries them.
 *
 * @typedef {"metric" | "imperial"} Units
 * A head as requests carry it; `own`: a described one, packed, when base is "own".
 * @typedef {{base: string, own?: string, mirrored: boolean, changes: Record<string, string>}} Head
 * @typedef {{base: string, own: string, mirrored: boolean, units: Units, changes: Record<string, string>}} Choice
 * @typedef {{base: string, name: string, label: string, mirrored: boolean, changed: string[], rotation: string}} HeadSummary
 *
 * @typedef {{text: string, changed: boolean, min?: number, max?: number, step?: number, unit?: string}} FormField
 * @typedef {Record<string, FormField>} Form
 * @typedef {Record<string, string>} Parts
 * @typedef {{parts: Parts, form: Form, spoken: string}} PrintedCalculator
 * @typedef {{key: string, mirrored: boolean, units: Units, head: HeadSummary, values: Record<string, string>,
 *   figures: Record<string, string>, calculators: Record<string, PrintedCalculator>}} Printed
 *
 * @typedef {{field: string, head?: boolean, text: string}} Fault
 * @typedef {{op: string, [key: string]: unknown}} Request
 * @typedef {{state: "result", id: number, head: HeadSummary & Head, parts: Parts, form: Form, spoken: string,
 *   values: Record<string, string>, figures: Record<string, string>,
 *   inputs: Record<string, Record<string, string>>, scene?: unknown, own: string, name: string, text: string, file: string} & Partial<Asked> & Partial<Marked> & {questions?: Dealt[]}} Result what the ops answer, all in one shape: each fills its own part
 * @typedef {{state: "invalid", id: number, faults: Fault[]}} Invalid
 * @typedef {{state: "failed", id?: number, text: string, unavailable?: boolean}} Failed
 * @typedef {{state: "stale"}} Stale
 * @typedef {Result | Invalid | Failed | Stale} Answer
 *
 * @typedef {{stage: "fetch" | "start", done: number, total: number}} Progress
 */
/**
 * A question as it is listed, dealt for a sheet, put, and judged (questions/desk.py).
 *
 * @typedef {{template: string, topic: string, level: number, tests: string, kind: "number" | "choice" | "order" | "mark", calculators: string[]}} Listed
 * @typedef {Listed & {seed: string}} Dealt
 * @typedef {Listed & {topic_title: string, prompt: string, unit: string, options: string[], items: string[], drawing: string, answer?: string, why?: string}} Asked
 * @typedef {{template: string, right: boolean, said: string, belief: string, answer: string, right_given: string, degrees: number | null, working: string,
 *   sources: string, calculator: string, title: string, page: string, inputs: Record<string, string>, topic_page: string, topic_title: string}} Marked
 */
/**
 * A chart as Python gives it, values in the reader's units.
 * @typedef {{title: string, x: {label: string, values: number[], turn: boolean}, y: {label: string, unit: string},
 *   lines: {name: string, role: string, values: number[]}[], cursor: number | null, cursorField: string,
 *   points: boolean}} ChartData
 *
 * A field over the disc: rows from root to tip, columns in even steps of bearing from the nose; levels between its bands.
 * @typedef {{title: string, rotation: string, inner: number, outer: number, rows: (number | null)[][], levels: number[],
 *   figures: [number, number, string][], none: {distance: number, bearing: number, diameter: number} | null}} FieldData
 */

export {};
