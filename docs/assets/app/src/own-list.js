/** The heads a reader has described, kept on this device when the browser allows it; else as long as the page is open. */

import { whenKeptElsewhere } from "./elsewhere.js";

/** @typedef {{id: string, name: string, own: string}} OwnHead own: packed, as Python reads it */

const KEY = "hand-to-disc-heads";

class OwnHeads extends EventTarget {
  /** @type {OwnHead[]} */
  list = [];
  /** False once the browser has refused to keep the list. */
  kept = !window.handToDiscStorageRefused;

  constructor() {
    super();
    this.load();
    whenKeptElsewhere(KEY, () => this.load());
  }

  load() {
    try {
      const stored = /** @type {unknown} */ (JSON.parse(localStorage.getItem(KEY) ?? "[]"));
      if (!Array.isArray(stored)) return;
      this.list = stored.filter((head) => [head?.id, head?.name, head?.own].every((text) => typeof text === "string" && text !== ""));
      this.dispatchEvent(new Event("list"));
    } catch {
      // Unreadable: an empty list, which only a change of it overwrites.
    }
  }

  /** @param {OwnHead[]} list */
  save(list) {
    this.list = list;
    try {
      localStorage.setItem(KEY, JSON.stringify(list));
      this.kept = !window.handToDiscStorageRefused;
    } catch {
      this.kept = false;
    }
    this.dispatchEvent(new Event("list"));
  }

  /** @param {string} name @param {string} own @returns {OwnHead} */
  add(name, own) {
    const head = { id: Math.random().toString(36).slice(2, 10), name, own };
    this.save([...this.list, head]);
    return head;
  }

  /** @param {string} id @param {Partial<OwnHead>} patch */
  change(id, patch) {
    this.save(this.list.map((head) => (head.id === id ? { ...head, ...patch } : head)));
  }
}

export const ownHeads = new OwnHeads();
