// What the scripts of the site are held to, beside their types. Run by scripts/check; versions are pinned in package-lock.json.
import { createRequire } from "node:module";

const installed = createRequire(new URL("../../.judges/", import.meta.url));
const js = installed("@eslint/js");
const esX = installed("eslint-plugin-es-x");
const globals = installed("globals");

export default [
  js.configs.recommended,
  esX.configs["flat/restrict-to-es2021"],
  {
    languageOptions: { sourceType: "script", globals: globals.browser },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      "consistent-return": "error",
      curly: ["error", "multi-line"],
      eqeqeq: "error",
      "max-len": ["error", { code: 120, ignoreUrls: true }],
      "max-lines-per-function": ["error", { max: 50, skipBlankLines: true, skipComments: true }],
      "no-eval": "error",
      "no-implied-eval": "error",
      "no-shadow": "error",
      "no-var": "error",
      "prefer-const": "error",
      strict: ["error", "function"],
      // Safari before 16.4 cannot parse a lookbehind: the whole script is lost there.
      "es-x/no-regexp-lookbehind-assertions": "error",
    },
  },
  {
    files: ["generator/tinwright/browser/worker/*.js"],
    languageOptions: { globals: globals.serviceworker },
  },
  {
    // Printed by tinwright.codegen: a fact stands in one line, and a function takes all symbols of its formula.
    files: ["formulas", "sentences"].map((part) => `generator/tinwright/browser/seaming/seaming-${part}.js`),
    rules: { "max-len": "off", "no-unused-vars": "off" },
  },
];
