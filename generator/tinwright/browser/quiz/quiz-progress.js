// @ts-check
// Practice progress, kept on this device alone; and which questions come next by it.
// needs: elements.js

(function (root) {
  "use strict";
  const { today } = root.tinwrightElements;
  const KEY = "tinwright.practice.v1";
  const ID = /^[a-z0-9][a-z0-9.-]{0,99}$/;
  const DAY = /^\d{4}-\d{2}-\d{2}$/;
  const MOST_ITEMS = 5000;
  const MOST_ROUNDS = 200;

  /** @param {any} value @param {number} most */
  const count = (value, most) => (Number.isInteger(value) && value >= 0 ? Math.min(value, most) : 0);

  /** @param {any} value @returns {boolean} */
  const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  /**
   * Keeps of a stored or imported value only what this page could have written.
   * @param {any} value
   * @returns {QuizProgress}
   */
  function sound(value) {
    /** @type {QuizProgress} */
    const progress = { items: new Map(), rounds: [] };
    if (!isObject(value)) return progress;
    if (isObject(value.items)) {
      for (const [id, seen] of Object.entries(value.items).slice(0, MOST_ITEMS)) {
        if (!ID.test(id) || !isObject(seen) || !["right", "partly", "missed"].includes(seen.last)) continue;
        const times = Math.max(1, count(seen.times, 99999));
        progress.items.set(id, {
          last: seen.last,
          times,
          right: Math.min(count(seen.right, 99999), times),
          day: dayOf(seen.day),
        });
      }
    }
    if (Array.isArray(value.rounds)) {
      for (const round of value.rounds.slice(-MOST_ROUNDS)) {
        if (!isObject(round) || typeof round.topic !== "string" || !ID.test(round.topic)) continue;
        progress.rounds.push({
          topic: round.topic,
          day: dayOf(round.day),
          questions: count(round.questions, 9999),
          percent: count(round.percent, 100),
          passed: round.passed === true,
        });
      }
    }
    return progress;
  }

  /** @param {any} value */
  const dayOf = (value) => (typeof value === "string" && DAY.test(value) ? value : "");

  /** @param {QuizProgress} progress */
  function plain(progress) {
    return { kind: KEY, items: Object.fromEntries(progress.items), rounds: progress.rounds };
  }

  /** @returns {QuizProgress} */
  function read() {
    try {
      return sound(JSON.parse(localStorage.getItem(KEY) || "null"));
    } catch {
      return sound(null);
    }
  }

  /** Keeps progress; says whether it was kept. @param {QuizProgress} progress */
  function write(progress) {
    try {
      localStorage.setItem(KEY, JSON.stringify(plain(progress)));
      return true;
    } catch {
      return false; // Storage is full or blocked: the quiz works, but forgets.
    }
  }

  function erase() {
    try {
      localStorage.removeItem(KEY);
    } catch {
      // As above: nothing was kept.
    }
  }

  /** Notes an answer. @param {string} id @param {[number, number]} share what it earned */
  function note(id, share) {
    const progress = read();
    const before = progress.items.get(id);
    const right = share[0] === share[1];
    progress.items.set(id, {
      last: right ? "right" : share[0] > 0 ? "partly" : "missed",
      times: (before ? before.times : 0) + 1,
      right: (before ? before.right : 0) + (right ? 1 : 0),
      day: today(),
    });
    return write(progress);
  }

  /**
   * Notes a finished round.
   * @param {string} topic
   * @param {number} questions
   * @param {number} percent
   * @param {boolean} passed
   */
  function noteRound(topic, questions, percent, passed) {
    const progress = read();
    progress.rounds = [...progress.rounds, { topic, day: today(), questions, percent, passed }].slice(-MOST_ROUNDS);
    return write(progress);
  }

  const exported = () => `${JSON.stringify(plain(read()), null, 2)}\n`;

  /**
   * Takes in a file written by another device; of each question the newer entry counts.
   * @param {string} text
   * @returns {number} how many questions it held, or -1
   */
  function take(text) {
    let value;
    try {
      value = JSON.parse(text);
    } catch {
      return -1;
    }
    if (!isObject(value) || value.kind !== KEY) return -1;
    const [mine, theirs] = [read(), sound(value)];
    for (const [id, seen] of theirs.items) {
      const own = mine.items.get(id);
      if (!own || own.day < seen.day) mine.items.set(id, seen);
    }
    const known = new Set(mine.rounds.map((round) => JSON.stringify(round)));
    mine.rounds = [...mine.rounds, ...theirs.rounds.filter((round) => !known.has(JSON.stringify(round)))]
      .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
      .slice(-MOST_ROUNDS);
    write(mine);
    return theirs.items.size;
  }

  /**
   * Even chances from a seed (a 32-bit linear step, then mixed), so that a round can be repeated.
   * @param {number} seed
   */
  function chances(seed) {
    let state = seed >>> 0;
    return () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      let mixed = state ^ (state >>> 16);
      mixed = Math.imul(mixed, 0x45d9f3b) >>> 0;
      return ((mixed ^ (mixed >>> 16)) >>> 0) / 4294967296;
    };
  }

  /** @template T @param {T[]} things @param {() => number} chance @returns {T[]} */
  function shuffled(things, chance) {
    const mixed = [...things];
    for (let last = mixed.length - 1; last > 0; last -= 1) {
      const other = Math.floor(chance() * (last + 1));
      [mixed[last], mixed[other]] = [mixed[other], mixed[last]];
    }
    return mixed;
  }

  /**
   * Chooses the questions of a round: those asked for by a link, then those missed last time, then new ones, then the
   * others; mixed within each group.
   * @template {{id: string}} T
   * @param {T[]} items
   * @param {number} size
   * @param {string} first
   * @param {() => number} chance
   * @returns {T[]}
   */
  function choose(items, size, first, chance) {
    const seen = read().items;
    const group = (/** @type {T} */ item) => {
      if (item.id === first) return 0;
      const before = seen.get(item.id);
      if (!before) return 2;
      return before.last === "right" ? 3 : 1;
    };
    return shuffled(items, chance)
      .sort((a, b) => group(a) - group(b))
      .slice(0, size);
  }

  root.tinwrightPractice = { KEY, chances, choose, erase, exported, note, noteRound, read, shuffled, sound, take };
})(globalThis);
