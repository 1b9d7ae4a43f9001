// Package instrument is the table of instruments and drum sounds that a spec
// may name, with what notation and sound need to know of each.
//
// One table in score order, built once. Rhythm is what a layer without an instrument is
// written on: one line, one neutral sound (low wood block); a bare tone means the first
// sound of the layer's instrument. A tenor is written at sounding pitch under a clef with
// an 8; guitars and basses transpose by an octave under a plain clef: never both. Sound
// ids are tested against the MusicXML 4.0 list of sounds; keys are within General MIDI's
// percussion map (35–81): shaker plays the maracas' key, for General MIDI 1 has no shaker.
// Ranges, reaches and repeats: common practice.
package instrument
