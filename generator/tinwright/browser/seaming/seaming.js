// @ts-check
// The trade's arithmetic and reasoning: the functions of tinwright.seaming under the same names in camelCase,
// with the same answers. Plain values in, plain values out: nothing here touches the page or asks the network.
// needs: seaming-formulas.js seaming-sentences.js seaming-wording.js seaming-readings.js seaming-formula.js
// needs: seaming-guard.js seaming-computed.js seaming-questions.js seaming-verdict.js seaming-confirmed.js
// needs: seaming-signs.js seaming-experience.js seaming-causes.js seaming-next-question.js seaming-order.js
// needs: seaming-correction.js

(function (root) {
  "use strict";
  root.tinwrightSeaming = {
    ...root.tinwrightSeamingFormulas,
    ...root.tinwrightSeamingSentences,
    ...root.tinwrightSeamingWording,
    ...root.tinwrightSeamingReadings,
    ...root.tinwrightSeamingFormula,
    ...root.tinwrightSeamingGuard,
    ...root.tinwrightSeamingComputed,
    ...root.tinwrightSeamingQuestions,
    ...root.tinwrightSeamingVerdict,
    ...root.tinwrightSeamingConfirmed,
    ...root.tinwrightSeamingSigns,
    ...root.tinwrightSeamingExperience,
    ...root.tinwrightSeamingCauses,
    ...root.tinwrightSeamingNextQuestion,
    ...root.tinwrightSeamingOrder,
    ...root.tinwrightSeamingCorrection,
  };
})(globalThis);
