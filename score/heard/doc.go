// Package heard holds music that came from outside: the attacks that a score
// or a list of taps sounds, with the places where they are written. Nothing in
// it knows which section spec, if any, the music was made from.
//
// A heard.Score is what sounds: exact onsets and lengths (whole notes), ties joined,
// repeats and jumps played out, transposition undone; attacks of a part in order of onset.
// It knows no spec. Whatever was left out or does not add up is a Remark.
package heard
