// Reads WebVTT from standard input and prints, as JSON, what webvtt-parser finds wrong and the cues that it read.
// usage: node webvtt_validator.js FOLDER_OF_THE_PARSER (captions|chapters)
const path = require("path");
const folder = process.argv[2];
const { WebVTTParser } = require(path.join(folder, "parser.js"));
const entities = require(path.join(folder, "html-entities.json"));
const text = require("fs").readFileSync(0, "utf8");
const tree = new WebVTTParser(entities).parse(text, process.argv[3] === "chapters" ? "chapters" : "subtitles/captions/descriptions");
const said = (nodes) => nodes.map((node) => (node.value !== undefined ? node.value : said(node.children || []))).join("");
console.log(JSON.stringify({
  errors: tree.errors,
  cues: tree.cues.map((cue) => ({ start: cue.startTime, end: cue.endTime, text: said(cue.tree.children) })),
}));
