package spec

import (
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
)

var slurWords = map[string]score.SlursBy{"none": score.SlurNone, "group": score.SlurGroup, "cycle": score.SlurCycle}

func readSlurs(r *reader, n *yaml.Node, v *voice) {
	s, ok := r.text(n, "slurs")
	if !ok {
		return
	}
	if by, ok := slurWords[s]; ok {
		v.Slurring.By = by
		return
	}
	v.Slurring.By = score.SlurCounts
	for _, count := range strings.Split(s, "+") {
		k, err := strconv.ParseUint(strings.TrimSpace(count), 10, 16)
		if err != nil || k == 0 {
			r.wrong(r.at(n), "write 3+1+2, group, cycle or none", "slurs count attacks; write whole numbers from 1")
			return
		}
		v.Slurring.Counts = append(v.Slurring.Counts, int(k))
	}
}

// checkSlurs refuses slurs that no player could read.
func (r *reader) checkSlurs(n *yaml.Node, l *score.Layer) {
	if n == nil || l.Instrument == nil {
		return
	}
	switch {
	case l.Instrument.IsUnpitched():
		r.wrong(r.at(n), "remove it, or leave "+l.Name+" out of for", "%s has no pitches to slur", l.Name)
	case l.Tails == score.CutTails:
		r.wrong(r.at(n), "write tails: tied, or no slurs", "%s is cut at barlines (tails), so it cannot be slurred", l.Name)
	}
}
