// @ts-check
// Which practice questions there are, and each topic's own when they are wanted: the mixed quiz asks a few of very many.

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const script = /** @type {HTMLScriptElement} */ (document.currentScript);
  const assets = new URL(".", script.src);
  /** @type {Map<string, Promise<void>>} */
  const coming = new Map();

  /** Topics that are here in full. @returns {any[]} */
  const here = () => globals.tinwrightQuizData || [];

  /**
   * One topic with its questions in full; or every topic, its questions in full or, before they are fetched, by id alone.
   * @param {string} own the topic, or empty for all @returns {any[]}
   */
  function topics(own) {
    if (own) return here().filter((topic) => topic.topic === own);
    const all = globals.tinwrightQuizIndex || here();
    return all.map((/** @type {any} */ topic) => here().find((whole) => whole.topic === topic.topic)
      || { ...topic, items: topic.items.map((/** @type {string} */ id) => ({ id, topic: topic.topic })) });
  }

  /** Fetches the questions of a topic, by a script so that it works from a folder on a disk, too. @param {string} topic @returns {Promise<void>} */
  function fetched(topic) {
    const found = coming.get(topic);
    if (found) return found;
    const promise = new Promise((/** @type {(value: void) => void} */ done, failed) => {
      const element = document.createElement("script");
      element.src = new URL(`quiz-${topic}.js`, assets).href;
      element.addEventListener("load", () => done());
      element.addEventListener("error", () => {
        coming.delete(topic);
        element.remove();
        failed(new Error(topic));
      });
      document.head.append(element);
    });
    coming.set(topic, promise);
    return promise;
  }

  /** The topics of some questions that are still to be fetched. @param {{topic: string}[]} items @returns {string[]} */
  const missing = (items) => [...new Set(items.map((item) => item.topic))].filter((name) => !here().some((topic) => topic.topic === name));

  /** Fetches what is missing of some questions; fails when one topic cannot be had. @param {{topic: string}[]} items */
  const have = async (items) => { await Promise.all(missing(items).map(fetched)); };

  globals.tinwrightQuizStore = { have, missing, topics };
})(globalThis);
