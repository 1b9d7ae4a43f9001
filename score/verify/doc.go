// Package verify compares music that was read from a score with the music that
// a section spec means, note by note, and says in words where they differ.
//
// A part that agrees note by note is done at once. For the others:
// match parts to layers → expected and played notes (one per tone, sounds as comparable
// strings) → exactly by moment and sound. What one move of a hand explains is tried first
// and kept if it leaves fewer differences: parts that hold each other's music (whole.go);
// bars cut, put in or repeated (align.go: the cheapest pairing of both sides' bars, only
// where their numbers differ), after which the spec's notes are where the score has them
// (edits); rows of one layer's notes moved by one amount (runs.go). Then neighbors that
// changed places (exchange.go), leftover notes paired (pair.go; same moment: other pitch;
// same sound: moved, but not past a note that is right; first those of one length) →
// words. A file is a part if it has MusicXML's part-name credit (heard.Score.Extract) or
// --part says so; else it is a score, and a player whose layers are in no part is reported. A
// row of notes off by one interval is one difference (transposed). Every label that
// score.Realignment.Label names is asked for; a box over a folded period ("B–B3") stands
// for the label of each pass up to the last it names; the text after the last bar is "the
// end (bar 12 beat 6)".
package verify
