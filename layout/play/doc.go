// Package play turns a piece into what is heard: for every layer a stream of
// sounding events with exact onsets and lengths, how loud and from where, and
// for the piece its tempos, meters and markers. MIDI and the page play from it
// and decide nothing of their own.
//
// Laws: the events of a voice come in time order, and Voice.Events reuses its event; the
// grid of a piece with staccato or grace notes is finer, so that halves are whole; the
// keys of an event differ; a pass lasts from its Start to the end of its last bar.
// Loudness is that of score/dynamic.go (own choice, from the standard's forte), which
// MusicXML takes too.
package play
