package lint

import (
	"slices"
	"strconv"
	"strings"
)

// sound checks that a note says on what it sounds where there is a choice, and an
// unpitched one where it stands too.
func (r *reading) sound(n *node) {
	for _, i := range n.all("instrument") {
		if r.sounds[i.attr("id")] != r.id {
			r.report("instrument %q is none of the part's", i.attr("id"))
		}
	}
	if u := n.at("unpitched"); u != nil && (!n.has("instrument") && !n.has("cue") || u.text("display-step") == "" || u.text("display-octave") == "") {
		r.report("an unpitched note without instrument or place")
	}
	several := 0
	for _, part := range r.sounds {
		if part == r.id {
			several++
		}
	}
	if n.has("pitch") && !n.has("cue") && !n.has("instrument") && several > 1 {
		r.report("a note that does not say which of %d instruments it is on", several)
	}
}

// direction checks that each has one sign, or words and the dashes after them, a
// side and a staff, and that lines begin and end in turn.
func (r *reading) direction(d *node) {
	var signs []*node
	for _, t := range d.all("direction-type") {
		signs = append(signs, t.Children...)
	}
	dashed := len(signs) == 2 && signs[0].name() == "words" && signs[1].name() == "dashes"
	if d.attr("placement") == "" || !d.has("staff") || len(signs) != 1 && !dashed {
		r.report("a direction must have one sign, a placement and a staff")
		return
	}
	sign := signs[len(signs)-1]
	switch sign.name() {
	case "bracket", "wedge", "dashes":
		key := sign.name() + " " + sign.attr("number")
		r.turn(r.lines, key, sign.attr("type"))
		if sign.name() == "bracket" && (sign.attr("line-end") == "" || sign.attr("line-type") != "solid") {
			r.report("%s without line-end or solid line", key)
		}
	case "metronome":
		r.tempo(d, sign)
	}
	if d.has("sound") && d.at("sound").attr("tempo") != "" && sign.name() != "metronome" && (sign.name() != "words" || d.attr("directive") != "yes") {
		r.report("a tempo that is not at a tempo mark")
	}
}

// tempo checks that a rate plays as it reads.
func (r *reading) tempo(d, sign *node) {
	rate := sign.text("per-minute")
	if rate == "" {
		return // an equation; the mark beside it has the rate
	}
	played, err := strconv.ParseFloat(d.at("sound").attr("tempo"), 64)
	if err != nil {
		r.report("a rate without its tempo in quarters")
		return
	}
	printed, err := strconv.ParseFloat(strings.TrimPrefix(rate, "c. "), 64)
	part := typeParts[sign.text("beat-unit")]
	if err != nil || part == 0 {
		r.report("rate %q of a %q", rate, sign.text("beat-unit"))
		return
	}
	quarters := printed * 4 / float64(part)
	if slices.ContainsFunc(sign.Children, func(n *node) bool { return n.name() == "beat-unit-dot" }) {
		quarters *= 1.5
	}
	if off := quarters - played; off > 0.02 || off < -0.02 {
		r.report("the mark says %v quarters a minute, the sound %v", quarters, played)
	}
}
