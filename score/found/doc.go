// Package found makes a section spec of music that was read, through what score/find finds
// in it.
//
// Selection.Read takes parts of a score as Music (parts.go): one Line for a part, a voice, an
// instrument that its player takes up (doubling.go) or a drum that has a loop of its own
// (apart.go), without slashes that carry no rhythm (slashes.go). Lines of durations and taps
// are made by the caller. After find.Search has ranked each line's descriptions, Music.Spec
// (spec.go) chooses an instrument for each line (instruments.go, sounds.go) and writes the
// spec; Meetings (meet.go) says how the lines begin together.
//
// The spec sounds exactly the lists (plan.go). Each layer takes the first of its descriptions
// that a spec can say (layer.go), at worst the list as a free line; processes that start over
// may need their cycles one by one (cycles.go), and stretches a layer each (stretch.go).
// meter.go and bars.go read and write meters, text.go the entries of a layer, names.go gives
// everything a name of its own.
package found
