// Package spec reads section specs: YAML in, a checked score out. Every
// mistake is reported with its place, in the spec's own words, with what to
// write instead, and all of them at once.
//
// Read(files) goes through five steps, each of which can only add problems: scan (raw
// text: size, encoding, tabs, invisible characters, document marks, a colon without a
// space), parse (the node tree; anchors, aliases, tags, merges and glued # are refused),
// readSection (keys by table, values by small grammars), compose (one piece: grid,
// instruments of a part over all files), Piece.Settle (what must be computed; only when
// nothing is wrong so far). Nothing is decoded into structs and no YAML tag is ever looked
// at: a scalar is its source text.
//
// Laws:
//
//   - Values are read by score/spec/grammar; reader.inside turns the byte offset of a slip
//     into line and column by matching the source, also over several lines.
//   - Every message is the literal format of grammar.Wrong, findings.wrong, findings.warn,
//     outline.fault or Problems.Add. TestEveryText collects these formats from the
//     source of score/spec, its grammar and score and fails when no file of testdata/broken (or case
//     of made()) shows one. A new message needs a broken spec. saidEarlier lists the
//     messages of score that the reader's own come before.
//   - testdata/broken: the expectation is written beside the mistake, # ERROR: text or #
//     WARNING: text; # ERROR 5: text speaks of line 5, # ERROR 0: of the file.
//   - One mistake is one problem. A misspelled key is reported and read on; a key that
//     could be anything (nodes has a ?) keeps back what would follow from its absence
//     (lacks). What to write instead is as good as what is wrong: hints_test.go lists
//     what people write and what hint they get.
//   - Names are kept as Name gives them, so that letters that look alike are alike
//     everywhere.
//   - Keys are tables of field (sectionKeys, layerKeys …). KeyTables lists them;
//     templates/schema.json is held to them in both directions, its word lists to the
//     reader's. schema_verdict_test.go works the schema's verdict out: it accepts all
//     that reads, and refuses testdata/broken but for beyondSchema, what no schema can
//     see.
//   - What the YAML library refuses, outline (outline.go, misquoted.go) reads line by
//     line and reports at its own place; only where it finds nothing are the library's
//     words shown, "near line N". It is silent about whatever the library reads
//     (TestOutlineIsSilentAboutYAML).
//   - At most 200 problems a file are shown, the rest is counted; lines over 2,000 bytes
//     are not quoted. TestHeavy keeps 1 MiB of mistakes to moments.
//   - Grid: lcm of 4 and the denominators of every pulse, its container, figure step,
//     line note and meter unit over all files.
//   - Tempo equations are resolved by Settle in the order of time; the reader only
//     refuses chains that no fraction of bounded size can hold.
//
// To add a key: a row in its table, a reader, the schema, a starter, the reference in
// cmd/tieover/help/spec.md (a test asks), a broken spec for each message; score/sample
// must make it in 5 % of cases (its coverage test takes the keys from KeyTables).
package spec
