// Judges JSON texts by the schemas of a folder with ajv, an implementation of JSON Schema
// 2020-12 that is not ours. Standard input is a list of {schema, about, body, good}. It
// prints what is judged otherwise than good says, then how many were judged.
"use strict";
const fs = require("fs");
const path = require("path");
const Ajv = require("ajv/dist/2020");
const formats = require("ajv-formats");

// Strict but for what the standard lets a schema do: a "then" does not repeat the type and
// the members that the schema around it gives, and a type may be one of two.
const ajv = new Ajv({ strict: true, strictTypes: false, strictRequired: false });
formats(ajv);
const made = {};
for (const file of fs.readdirSync(process.argv[2])) {
  const name = file.match(/^(.*)\.schema\.json$/);
  if (name) {
    const schema = JSON.parse(fs.readFileSync(path.join(process.argv[2], file), "utf8"));
    if (!ajv.validateSchema(schema)) {
      console.log(file + " is no schema: " + ajv.errorsText());
    }
    made[name[1]] = ajv.compile(schema);
  }
}
let refused = 0;
let wrong = 0;
const texts = JSON.parse(fs.readFileSync(0, "utf8"));
for (const t of texts) {
  const check = made[t.schema];
  const good = check(JSON.parse(t.body));
  if (!good) {
    refused++;
  }
  if (good !== t.good) {
    wrong++;
    console.log(JSON.stringify(t.schema + ", " + t.about + ": " + (good ? "taken" : ajv.errorsText(check.errors)) + ": " + t.body.slice(0, 600)));
  }
}
console.log("judged " + texts.length + " refused " + refused + " wrong " + wrong);
