// Says which published scripts are not, word for word, the sources they are made of: comments and spaces may be gone, nothing else.
// node same-tokens.cjs TYPESCRIPT '[["published.js", ["source.js", ...]], ...]'
const fs = require("fs");
const [library, pairs] = process.argv.slice(2);
const ts = require(library);

function words(file) {
  const source = ts.createSourceFile(file, fs.readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true, ts.ScriptKind.JS);
  if (source.parseDiagnostics.length) throw new Error(`${file}: ${source.parseDiagnostics[0].messageText}`);
  const found = [];
  (function walk(node) {
    if (ts.isJSDoc(node)) return;
    const children = node.getChildren(source);
    if (children.length) children.forEach(walk);
    else if (node.getText(source)) found.push(node.getText(source));
  })(source);
  return found;
}

const differing = JSON.parse(pairs).filter(([published, sources]) => {
  const one = words(published);
  const other = sources.flatMap(words);
  return one.length !== other.length || one.some((word, place) => word !== other[place]);
});
process.stdout.write(JSON.stringify(differing.map(([published]) => published)));
