// @ts-check
// The searcher: takes the place of the theme's, and answers to the same messages. A word that no page has is taken for
// a slip, or for one that is still being typed; endings do not count ("leaking" is "leak"); small words are left out.
// The site puts two libraries before it: MiniSearch, which finds, and a stemmer, which takes the endings off.

(function (root) {
  "use strict";
  const { MiniSearch, stemmer } = /** @type {any} */ (root);
  const SET_UP = 0;
  const READY = 1;
  const QUERY = 2;
  const RESULT = 3;
  const AT_MOST = 20;
  const FUZZY_FROM = 4; // letters: a shorter word with one letter changed is another word
  const NAMED = 3; // who types a page's whole name wants it before pages that hold the name
  const FIELDS = { title: 4, tags: 6, text: 1 };

  const WORD = /[\p{L}\p{N}]+(?:['’.][\p{L}\p{N}]+)*/gu;
  const SIZE = /\b(\d{3})\s*[x×]\s*(\d{3})\b/gi;
  const SMALL = new Set(
    (
      "a about all an and any are as at be been but by can't do does for from get got has have here how i if in into " +
      "is it its it's like look looks me my of on or our so some than that the them then there they this to too up " +
      "very was we what when where which while who why will with you your"
    ).split(" "),
  );

  /** @param {string} text */
  const wordsOf = (text) =>
    (text.toLowerCase().replace(SIZE, "$1x$2").match(WORD) || []).map((word) => word.replace("’", "'"));
  /** @param {string} word */
  const stemOf = (word) => stemmer(word.replace(/'s?$/, ""));
  /** @param {string[]} words */
  const telling = (words) => {
    const left = words.filter((word) => !SMALL.has(word));
    return left.length ? left : words;
  };

  /**
   * Puts together what is one word elsewhere ("dead head"), and takes apart what is two ("bodyhook").
   * @param {string[]} words @param {Set<string>} known
   */
  function rejoined(words, known) {
    const pairs = words.slice(1).map((word, place) => words[place] + word);
    const parts = words.flatMap((word) => {
      if (known.has(stemOf(word)) || known.has(word)) return [word];
      for (let at = 3; at <= word.length - 3; at++) {
        const two = [word.slice(0, at), word.slice(at)];
        if (two.every((part) => known.has(part))) return two;
      }
      return [word];
    });
    return { pairs: pairs.filter((pair) => known.has(pair)), parts };
  }

  /**
   * Learns what there is, and returns what finds in it.
   * @param {SearchEntry[]} entries
   */
  function finder(entries) {
    const known = new Set();
    const index = new MiniSearch({
      idField: "location",
      fields: Object.keys(FIELDS),
      tokenize: (/** @type {string} */ text) => telling(wordsOf(text)),
      processTerm: (/** @type {string} */ word) => {
        const forms = [...new Set([stemOf(word), word])].filter(Boolean);
        forms.forEach((form) => known.add(form));
        return forms;
      },
    });
    index.addAll(entries);
    const byPlace = new Map(entries.map((entry) => [entry.location, entry]));
    const keyOf = (/** @type {string} */ text) => telling(wordsOf(text)).map(stemOf).join(" ");
    const names = new Map(entries.map(({ location, title }) => [location, keyOf(title)]));
    const unknown = (/** @type {string} */ word) => !known.has(word);
    const options = {
      boost: FIELDS,
      boostDocument: (/** @type {string} */ place) => byPlace.get(place)?.boost || 1,
      tokenize: (/** @type {string} */ text) => Object.values(rejoined(telling(wordsOf(text)), known)).flat(),
      processTerm: (/** @type {string} */ word) => (known.has(stemOf(word)) ? stemOf(word) : word),
      prefix: (/** @type {string} */ word, /** @type {number} */ place, /** @type {string[]} */ words) =>
        place === words.length - 1 && word.length > 2 && unknown(word),
      fuzzy: (/** @type {string} */ word) => word.length >= FUZZY_FROM && unknown(word) && 0.25,
    };
    return (/** @type {string} */ words) => {
      const { pairs, parts } = rejoined(telling(wordsOf(words)), known);
      const whole = new Set(pairs.map(options.processTerm));
      const asked = new Set(parts.map(options.processTerm));
      // a page with all the words comes before one that has one of them often
      const share = (/** @type {string[]} */ found) =>
        Math.min(1, found.reduce((sum, term) => sum + (whole.has(term) ? 2 : 1), 0) / asked.size);
      return index
        .search(words, options)
        .map((/** @type {any} */ { id, score, terms, queryTerms }) => ({
          entry: byPlace.get(id),
          score: score * share(queryTerms) * (names.get(id) === keyOf(words) ? NAMED : 1),
          stems: new Set(terms),
        }))
        .sort((/** @type {any} */ one, /** @type {any} */ other) => other.score - one.score)
        .slice(0, AT_MOST);
    };
  }

  /**
   * Marks the words that were found. The text is HTML already, with no elements in it.
   * @param {string} html @param {Set<string>} stems
   */
  const marked = (html, stems) =>
    html.replace(/&[#\w]+;|[\p{L}\p{N}]+/gu, (part) =>
      part[0] !== "&" && (stems.has(stemOf(part.toLowerCase())) || stems.has(part.toLowerCase()))
        ? `<mark>${part}</mark>`
        : part,
    );

  Object.assign(root, { tinwrightFinder: finder });

  /** @type {ReturnType<typeof finder>} */
  let find = () => [];
  addEventListener("message", ({ data: message }) => {
    if (message.type === SET_UP) {
      find = finder(message.data.docs);
      postMessage({ type: READY });
    } else if (message.type === QUERY) {
      const items = find(message.data).map((/** @type {any} */ { entry, score, stems }) => [
        {
          location: entry.location,
          title: marked(entry.title, stems),
          text: marked(entry.text, stems),
          score,
          terms: Object.fromEntries([...stems].map((stem) => [stem, true])), // the theme marks them on the page, too
        },
      ]);
      postMessage({ type: RESULT, data: { items } });
    }
  });
})(globalThis);
