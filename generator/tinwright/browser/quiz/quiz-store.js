// @ts-check
// Which practice questions there are, and each topic's own when wanted: the mixed quiz asks a few of very many.
// joined: quiz-progress.js

(function (root) {
  "use strict";
  const script = /** @type {HTMLScriptElement} */ (document.currentScript);
  const assets = new URL(".", script.src);
  /** @type {Map<string, Promise<void>>} */
  const coming = new Map();

  /** Topics that are here in full. @returns {QuizTopic<QuizItem>[]} */
  const here = () => root.tinwrightQuizData || [];

  /**
   * One topic with its questions in full; or every topic, its questions in full or, before they came, by id alone.
   * @param {string} own the topic, or empty for all
   * @returns {QuizTopic<QuizKnown>[]}
   */
  function topics(own) {
    if (own) return here().filter((topic) => topic.topic === own);
    const index = root.tinwrightQuizIndex;
    if (!index) return here();
    return index.map(
      (topic) =>
        here().find((whole) => whole.topic === topic.topic) || {
          ...topic,
          items: topic.items.map((id) => ({ id, topic: topic.topic })),
        },
    );
  }

  /**
   * Fetches the questions of a topic, by a script so that it works from a folder on a disk, too.
   * @param {string} topic
   * @returns {Promise<void>}
   */
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
  const missing = (items) =>
    [...new Set(items.map((item) => item.topic))].filter((name) => !here().some((topic) => topic.topic === name));

  /** Fetches what is missing of some questions; fails when one topic cannot be had. @param {{topic: string}[]} items */
  const have = async (items) => {
    await Promise.all(missing(items).map(fetched));
  };

  root.tinwrightQuizStore = { have, missing, topics };
})(globalThis);
