// @ts-check
// What this site keeps in this browser: text under keys that begin with `tinwright.`, the database `tinwright`, and
// the copies of the site. What other sites of the same host keep is left alone.

(function (root) {
  "use strict";
  const OURS = "tinwright.";
  const NO_COPY = "tinwright.no-copy";
  const DATABASE = "tinwright";
  const site = new URL("..", /** @type {HTMLScriptElement} */ (document.currentScript).src);

  /** Stores of text that may be read; none when the browser blocks them. @returns {Storage[]} */
  function stores() {
    try {
      return [localStorage, sessionStorage];
    } catch {
      return [];
    }
  }

  /** Every text kept, with its key. @returns {{key: string, value: string}[]} */
  const texts = () =>
    stores().flatMap((store) =>
      Object.keys(store)
        .filter((key) => key.startsWith(OURS))
        .sort()
        .map((key) => ({ key, value: store.getItem(key) || "" })),
    );

  /** Removes every text but the wish that no copy be kept. */
  function eraseTexts() {
    for (const store of stores()) {
      for (const key of Object.keys(store)) if (key.startsWith(OURS) && key !== NO_COPY) store.removeItem(key);
    }
  }

  const mayCopy = () => stores().every((store) => store.getItem(NO_COPY) === null);

  /** @param {boolean} may */
  function letCopy(may) {
    for (const store of stores().slice(0, 1)) {
      if (may) store.removeItem(NO_COPY);
      else store.setItem(NO_COPY, "1");
    }
  }

  /** Names of the copies of this site. */
  const copies = async () =>
    "caches" in root ? (await caches.keys()).filter((key) => key.startsWith(`tinwright ${site.pathname} `)) : [];

  async function filesCopied() {
    let number = 0;
    for (const key of await copies()) number += (await (await caches.open(key)).keys()).length;
    return number;
  }

  async function eraseCopies() {
    const registration =
      "serviceWorker" in navigator ? await navigator.serviceWorker.getRegistration(site.href) : undefined;
    if (registration) await registration.unregister();
    for (const key of await copies()) await caches.delete(key);
  }

  async function hasDatabase() {
    try {
      return (await indexedDB.databases()).some((database) => database.name === DATABASE);
    } catch {
      return false; // blocked, or a browser that does not tell
    }
  }

  /** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
  const done = (request) =>
    new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
      if (request instanceof IDBOpenDBRequest) request.onblocked = () => reject(new Error("open elsewhere"));
    });

  /** Everything in the database, store by store. @returns {Promise<Object<string, any[]>>} */
  async function databaseContent() {
    /** @type {Object<string, any[]>} */
    const content = {};
    if (!(await hasDatabase())) return content;
    const database = await done(indexedDB.open(DATABASE));
    for (const name of [...database.objectStoreNames]) {
      content[name] = await done(database.transaction(name).objectStore(name).getAll());
    }
    database.close();
    return content;
  }

  /** @returns {Promise<boolean>} false when another page of the site has it open */
  const eraseDatabase = async () =>
    !(await hasDatabase()) ||
    done(indexedDB.deleteDatabase(DATABASE)).then(
      () => true,
      () => false,
    );

  root.tinwrightKeptHere = {
    NO_COPY,
    databaseContent,
    eraseCopies,
    eraseDatabase,
    eraseTexts,
    filesCopied,
    hasDatabase,
    letCopy,
    mayCopy,
    texts,
  };
})(globalThis);
