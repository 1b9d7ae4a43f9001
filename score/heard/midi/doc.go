// Package midi reads Standard MIDI Files into attacks.
//
// Own byte reader (gomidi is not used for foreign bytes): types 0 and 1, every length
// checked, notes as exact ticks, bars from the time signatures (4/4 before the first).
// Checked on the worked example of Standard MIDI Files 1.0 (RP-001).
package midi
