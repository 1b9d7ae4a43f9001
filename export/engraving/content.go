package engraving

import (
	"cmp"
	"slices"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// content is what stands in one bar of a part, as far as it does not depend on
// where the bar is drawn. Equal bars share it.
type content struct {
	items  []item // voice after voice, each in order of time
	voices [][2]int
	places []place // in order of time
	shares []sheet.Share
	beams  []span // of each group of beams: how far its heads reach
}

// barKey tells bars apart that are drawn otherwise.
type barKey struct {
	part    int
	measure *sheet.Measure
	signs   [2]bool // by staff: a sign stands in place of its notes
}

// rememberedBars is how many bars of all parts together are remembered, about
// five kilobytes each. When they are so many all are forgotten.
const rememberedBars = 2048

// place is a moment of the bar with what its signs take.
type place struct {
	at    beat.Time
	reach []reach // staff counts within the part
}

// content returns what stands in a bar, made or remembered.
func (d *reader) content(part int, b *sheet.Bar) *content {
	key := barKey{part, b.Measure, [2]bool{b.Repeats[0] > 0, b.Repeats[1] > 0}}
	c, known := d.known[key]
	if !known {
		if len(d.known) >= rememberedBars {
			clear(d.known)
		}
		c = d.contentOf(part, b, nil)
		d.known[key] = c
	}
	return c
}

// contentOf makes the content of a bar. Stems gives the directions of beams that
// cross a barline where they are not those that the bar alone would have.
func (d *reader) contentOf(part int, b *sheet.Bar, stems map[crossing]bool) *content {
	m := written(b)
	c := &content{shares: sheet.Shares(m, d.sheet.Grid)}
	staves := d.staves[d.tops[part]:]
	for v := range m.Voices {
		voice := &m.Voices[v]
		from := len(c.items)
		lone := !slices.ContainsFunc(m.Voices, func(o sheet.Voice) bool { return o.Staff == voice.Staff && o.Number != voice.Number })
		for _, ev := range voice.Events {
			it := item{event: ev, voice: voice, staff: voice.Staff - 1, percent: fullSize, lone: lone, beam: -1}
			if voice.Small {
				it.percent = smallSize
			}
			switch ev := ev.(type) {
			case *sheet.Note:
				it.note = ev
				middle := sheet.Steps(d.sheet.Parts[part].MiddleIn(m, voice.Staff))
				d.setHeads(&it, part, m, middle)
				d.setGraces(&it, part, m, middle)
			case *sheet.Rest:
				it.rest = ev
			}
			c.items = append(c.items, it)
		}
		c.voices = append(c.voices, [2]int{from, len(c.items)})
	}
	c.joinBeams()
	c.direct(staves, stems)
	c.arrange(staves)
	for i, st := range d.sheet.Parts[part].Staves {
		if st.Tuning != nil {
			c.fretRoom(i)
		}
	}
	return c
}

// joinBeams numbers the groups of beams and measures how far their heads reach.
func (c *content) joinBeams() {
	for _, v := range c.voices {
		open := false
		for i := v[0]; i < v[1]; i++ {
			it := &c.items[i]
			switch {
			case it.note == nil: // a beam may run over a rest
				continue
			case !it.beamed():
				open = false
				continue
			}
			first := it.note.Beams[0]
			if !open || first != sheet.BeamContinue && first != sheet.BeamEnd {
				c.beams = append(c.beams, it.span())
			}
			it.beam = len(c.beams) - 1
			c.beams[it.beam] = c.beams[it.beam].with(it.span())
			open = first == sheet.BeamBegin || first == sheet.BeamContinue
		}
	}
}

// arrange puts heads, accidentals and dots where they do not meet, and measures
// what each moment takes.
func (c *content) arrange(staves []staff) {
	order := make([]int, 0, len(c.items)) // by time, then staff
	for i := range c.items {
		if c.items[i].note != nil {
			c.items[i].setAside()
		}
		if !quiet(c.items[i].event) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &c.items[a], &c.items[b]
		return cmp.Or(cmp.Compare(x.event.At(), y.event.At()), x.staff-y.staff)
	})
	for len(order) > 0 {
		first := &c.items[order[0]]
		n := 1
		for n < len(order) && c.items[order[n]].event.At() == first.event.At() && c.items[order[n]].staff == first.staff {
			n++
		}
		together := make([]*item, n)
		for k := range together {
			together[k] = &c.items[order[k]]
		}
		order = order[n:]
		r := arranged(together, &staves[first.staff])
		r.staff = first.staff
		if k := len(c.places) - 1; k >= 0 && c.places[k].at == first.event.At() {
			c.places[k].reach = append(c.places[k].reach, r)
		} else {
			c.places = append(c.places, place{first.event.At(), []reach{r}})
		}
	}
}

// arranged sets out what stands in one column of one staff.
func arranged(together []*item, st *staff) (r reach) {
	for j, b := range together {
		for _, a := range together[:j] {
			if a.note != nil && b.note != nil {
				giveWay(a, b)
			}
		}
	}
	setAccidentals(together)
	for _, it := range together {
		left, right := it.extent(st)
		r.left, r.right = max(r.left, left), max(r.right, right)
		if it.note != nil {
			r.lyric = max(r.lyric, lyricRoom(it.note.Lyrics))
		}
	}
	for _, it := range together {
		r.left = it.placeGraces(r.left, st)
	}
	return r
}

// written is what is drawn of a bar: a staff that has a sign in place of its notes
// is empty.
func written(b *sheet.Bar) *sheet.Measure {
	if b.Repeats == [2]int{} {
		return b.Measure
	}
	m := *b.Measure
	m.Voices = slices.Clone(m.Voices)
	for i := range m.Voices {
		if v := &m.Voices[i]; v.Staff <= len(b.Repeats) && b.Repeats[v.Staff-1] > 0 {
			v.Events = []sheet.Event{&sheet.Rest{Length: m.Length, Whole: true, Hidden: true}}
		}
	}
	return &m
}
