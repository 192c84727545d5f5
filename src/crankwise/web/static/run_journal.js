// A run in the hand: what the workshop has written, and what was tapped here since.

import { freshState, replayed } from "./run_engine.js";
import { turnsBetween, withRing } from "./run_ring.js";

export class RunInHand {
  /**
   * told     the run as the workshop tells it: rows, gates, journal
   * keep     where taps are kept on this device
   * records  what is kept there: taps, each with how much of the workshop's journal was known here then
   */
  constructor(told, keep, records) {
    this.told = told;
    this.keep = keep;
    this.pending = [];
    this.hear(told.journal);
    this.ringTold = this.ofWorkshop.ring_zero; // what the rows told were worked out for
    const open = records.filter(({ entry }) => !this.known.has(entry.tap));
    this.pending = open.map(({ entry }) => entry);
    // What the workshop has written since, these taps were made without: it must hear that, or a row that
    // was reopened meanwhile would be completed unseen.
    this.base = Math.min(this.journal.length, ...open.map(({ base }) => base));
    this.state = replayed(this.ofWorkshop, this.pending);
  }

  /** Take the workshop's whole journal as it now is. */
  hear(journal) {
    this.journal = journal;
    this.known = new Set(journal.map((entry) => entry.tap));
    this.ofWorkshop = replayed(freshState(this.told.row_count, this.told.gates), journal);
    this.state = replayed(this.ofWorkshop, this.pending);
  }

  /** A whole row: what is usual, with its own words over it, and what the ring shows as it now stands. */
  row(index) {
    if (index >= this.told.row_count) return null;
    const row = { ...this.told.usual, row: index, ...this.told.rows[index] };
    const moved = turnsBetween(this.state.ring_zero, this.ringTold);
    return moved === "0" || row.ring_exact === "" ? row : withRing(row, this.told.scales.ring, moved);
  }

  /** Keep one tap on this device, then go on; false when it does not count. Throws when it cannot be kept. */
  async tap(entry) {
    return this.tapAll([entry]);
  }

  /** Keep several taps on this device, all of them or none; false when one of them does not count. */
  async tapAll(entries) {
    const state = replayed(this.state, entries);
    if (state.entries !== this.state.entries + entries.length) return false;
    if (!this.pending.length) this.base = this.journal.length;
    const { base } = this;
    await this.keep.add(this.journal.length + this.pending.length, entries.map((entry) => ({ base, entry })));
    this.pending.push(...entries);
    this.state = state;
    return true;
  }

  /** Take taps out of the run as shown; they stay kept until a person has given them up. */
  setAside(taps) {
    this.pending = this.pending.filter((entry) => !taps.has(entry.tap));
  }

  /** Forget taps that the workshop has, or that a person has given up. */
  async forget(taps) {
    this.pending = this.pending.filter((entry) => !taps.has(entry.tap));
    this.state = replayed(this.ofWorkshop, this.pending);
    await this.keep.drop(taps);
  }
}
