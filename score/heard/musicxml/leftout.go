package musicxml

import (
	"slices"
	"strings"

	"tieover/score/heard"
)

// isHeading reports whether words name the bars that follow, as they do in a score
// that has the same music twice, in different bars.
func isHeading(text string) bool {
	return text == "in the meter of the section" || strings.HasPrefix(text, "in bars of ")
}

// leaveOutSecond drops the second writing of a score that has its music twice,
// one below the other: from the bar on that has a heading behind a final
// barline, if the first bar has one too.
func (in *reading) leaveOutSecond() {
	for _, p := range in.parts {
		for i := 1; i < len(p.bars) && p.bars[0].heading; i++ {
			if !p.bars[i].heading || !p.bars[i-1].over && !p.bars[i-1].form.backward {
				continue
			}
			in.remarks = append(in.remarks, heard.Remark{Kind: heard.LeftOut, Part: p.name, Bar: p.bars[i].number,
				Text: "the same music once more, in other bars, left out from bar " + p.bars[i].number + " on"})
			for _, q := range in.parts {
				q.bars = q.bars[:min(i, len(q.bars))]
			}
			return
		}
	}
}

// leaveOutTablature drops a bar's notes in tablature where a staff of notes shows the
// same.
func (b *barReading) leaveOutTablature() {
	tabbed := func(n readNote) bool { return b.part.state.tabs[n.staff] }
	if slices.ContainsFunc(b.bar.notes, func(n readNote) bool { return !tabbed(n) }) {
		b.bar.notes = slices.DeleteFunc(b.bar.notes, tabbed)
	}
}

// leaveOutCues returns the parts that hold cue notes and no others, a partner's
// line above a part, and says so once for each; none if there is nothing else.
func (in *reading) leaveOutCues() map[*readPart]bool {
	only := map[*readPart]bool{}
	for _, p := range in.parts {
		if p.cues > 0 && p.notes == 0 {
			only[p] = true
		}
	}
	if len(only) == len(in.parts) {
		return nil
	}
	for _, p := range in.parts {
		if only[p] {
			in.remarks = slices.DeleteFunc(in.remarks, func(r heard.Remark) bool { return r.Part == p.name && r.Kind == heard.LeftOut })
			in.remarks = append(in.remarks, heard.Remark{Kind: heard.LeftOut, Part: p.name, Text: "has cue notes only and is left out"})
		}
	}
	return only
}
