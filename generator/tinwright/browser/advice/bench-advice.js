// @ts-check
// What the bench pages share under one name: records, forms, and what a seam technician would say.
// needs: elements.js bench-records.js bench-form.js bench-advising.js bench-wording.js bench-saying.js

(function (root) {
  "use strict";
  root.tinwrightBench = {
    make: root.tinwrightElements.make,
    ...root.tinwrightBenchRecords,
    ...root.tinwrightBenchForm,
    ...root.tinwrightBenchAdvising,
    ...root.tinwrightBenchWording,
    ...root.tinwrightBenchSaying,
  };
})(globalThis);
