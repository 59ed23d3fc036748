// @ts-check
// The practice bench: the functions of tinwright.practice under the same names in camelCase, with the same answers.
// Plain values in, plain values out: nothing here touches the page or asks the network.
// needs: practice-chance.js practice-fault.js practice-setting.js practice-seam.js practice-showing.js
// needs: practice-reading.js practice-round.js practice-debrief.js practice-known.js practice-careful.js

(function (root) {
  "use strict";
  root.tinwrightPracticeBench = {
    ...root.tinwrightPracticeChance,
    ...root.tinwrightPracticeFault,
    ...root.tinwrightPracticeSetting,
    ...root.tinwrightPracticeSeam,
    ...root.tinwrightPracticeShowing,
    ...root.tinwrightPracticeReading,
    ...root.tinwrightPracticeRound,
    ...root.tinwrightPracticeDebrief,
    ...root.tinwrightPracticeKnown,
    ...root.tinwrightPracticeCareful,
  };
})(globalThis);
