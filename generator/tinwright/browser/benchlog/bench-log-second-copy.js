// @ts-check
// A second copy of every line of the bench log, in the database `tinwright`. What a browser puts into its local storage
// reaches the disk some seconds later; a battery that dies in between takes it along. Here each line is asked to be on
// the disk.
// joined: bench-log.js

(function (root) {
  "use strict";
  const DATABASE = "tinwright";
  const STORE = "bench-log";
  /** @type {Promise<IDBDatabase>|null} */
  let opened = null;

  /** @returns {Promise<IDBDatabase>} */
  function open() {
    opened =
      opened ||
      new Promise((resolve, reject) => {
        const request = indexedDB.open(DATABASE, 1);
        request.onupgradeneeded = () => request.result.createObjectStore(STORE, { autoIncrement: true });
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
          const database = request.result;
          // The page On this device may erase it while this page is open.
          const close = () => {
            database.close();
            opened = null;
          };
          database.onversionchange = close;
          if (database.objectStoreNames.contains(STORE)) resolve(database);
          else {
            close();
            reject(new Error("no such store"));
          }
        };
      });
    opened.catch(() => {
      opened = null;
    });
    return opened;
  }

  /**
   * Puts lines on the disk, and waits for it; without such storage the first copy has to do.
   * @param {string} key
   * @param {string[]} lines
   */
  async function add(key, lines) {
    try {
      const database = await open();
      const transaction = database.transaction(STORE, "readwrite", { durability: "strict" });
      for (const line of lines) transaction.objectStore(STORE).add({ key, line });
      await new Promise((resolve, reject) => {
        transaction.oncomplete = resolve;
        transaction.onabort = () => reject(transaction.error);
      });
    } catch {
      // Storage is full or blocked: the page tells that by its first copy.
    }
  }

  /** Every line, the oldest first; opens no database where there is none. @returns {Promise<CopiedLine[]>} */
  async function read() {
    try {
      if (!(await indexedDB.databases()).some(({ name }) => name === DATABASE)) return [];
      const database = await open();
      const request = database.transaction(STORE).objectStore(STORE).getAll();
      return await new Promise((resolve, reject) => {
        request.onsuccess = () =>
          resolve(
            request.result.filter(
              (/** @type {any} */ each) => each && typeof each.key === "string" && typeof each.line === "string",
            ),
          );
        request.onerror = () => reject(request.error);
      });
    } catch {
      return [];
    }
  }

  root.tinwrightBenchLogCopy = { add, read };
})(globalThis);
