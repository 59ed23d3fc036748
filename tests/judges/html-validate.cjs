// What html-validate asks of every page: its standard rules and all that it knows of WCAG.
module.exports = {
  root: true,
  extends: ["html-validate:standard", "html-validate:a11y"],
  rules: {
    // Asks for a button that sends the form. Search, the switch between light and dark, and the questions of an
    // examination send nothing; test_only_forms_that_send_nothing_lack_a_button_that_sends keeps it to these.
    "wcag/h32": "off",
  },
};
