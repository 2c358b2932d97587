// What the command line says about a job file, said of this screen.

const SAID = /** @type {[string, string][]} */ ([
  ["write trim = true for its field in [names.fields]", "tick “Trim white space” below its field"],
  ["give the field a stand-in: otherwise = in [names.fields]", "write what stands there below its field, under “Where the cell is empty”"],
  ["say encoding = in [names]", "choose its letters under “How it is read”"],
  ["Say which row does with header = in [names]", "Say which row does under “How it is read”"],
]);

/** @param {string} words */
export function onScreen(words) {
  return SAID.reduce((said, [of, here]) => said.replace(of, here), words);
}
