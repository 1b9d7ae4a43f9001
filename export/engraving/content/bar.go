package content

import (
	"cmp"
	"slices"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Bar is what stands in one bar of a part, as far as it does not depend on
// where the bar is drawn. Equal bars share it.
type Bar struct {
	Items  []Item // voice after voice, each in order of time
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
	reach []Reach // staff counts within the part
}

// bar returns what stands in a bar, made or remembered.
func (d *Reader) bar(part int, b *sheet.Bar) *Bar {
	key := barKey{part, b.Measure, [2]bool{b.Repeats[0] > 0, b.Repeats[1] > 0}}
	c, known := d.known[key]
	if !known {
		if len(d.known) >= rememberedBars {
			clear(d.known)
		}
		c = d.barOf(part, b, nil)
		d.known[key] = c
	}
	return c
}

// barOf makes what stands in a bar. Stems gives the directions of beams that
// cross a barline where they are not those that the bar alone would have.
func (d *Reader) barOf(part int, b *sheet.Bar, stems map[crossing]bool) *Bar {
	m := written(b)
	c := &Bar{shares: sheet.Shares(m, d.Sheet.Grid)}
	staves := d.Staves[d.Tops[part]:]
	for v := range m.Voices {
		voice := &m.Voices[v]
		from := len(c.Items)
		lone := !slices.ContainsFunc(m.Voices, func(o sheet.Voice) bool { return o.Staff == voice.Staff && o.Number != voice.Number })
		for _, ev := range voice.Events {
			it := Item{Event: ev, Voice: voice, Staff: voice.Staff - 1, Percent: pen.FullSize, Lone: lone, beam: -1}
			if voice.Small {
				it.Percent = pen.SmallSize
			}
			switch ev := ev.(type) {
			case *sheet.Note:
				it.Note = ev
				middle := sheet.Steps(d.Sheet.Parts[part].MiddleIn(m, voice.Staff))
				d.setHeads(&it, part, m, middle)
				d.setGraces(&it, part, m, middle)
			case *sheet.Rest:
				it.Rest = ev
			}
			c.Items = append(c.Items, it)
		}
		c.voices = append(c.voices, [2]int{from, len(c.Items)})
	}
	c.joinBeams()
	c.direct(staves, stems)
	c.arrange(staves)
	for i, st := range d.Sheet.Parts[part].Staves {
		if st.Tuning != nil {
			c.fretRoom(i)
		}
	}
	return c
}

// joinBeams numbers the groups of beams and measures how far their heads reach.
func (c *Bar) joinBeams() {
	for _, v := range c.voices {
		open := false
		for i := v[0]; i < v[1]; i++ {
			it := &c.Items[i]
			switch {
			case it.Note == nil: // a beam may run over a rest
				continue
			case !it.Beamed():
				open = false
				continue
			}
			first := it.Note.Beams[0]
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
func (c *Bar) arrange(staves []Staff) {
	order := make([]int, 0, len(c.Items)) // by time, then staff
	for i := range c.Items {
		if c.Items[i].Note != nil {
			c.Items[i].setAside()
		}
		if !Quiet(c.Items[i].Event) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &c.Items[a], &c.Items[b]
		return cmp.Or(cmp.Compare(x.Event.At(), y.Event.At()), x.Staff-y.Staff)
	})
	for len(order) > 0 {
		first := &c.Items[order[0]]
		n := 1
		for n < len(order) && c.Items[order[n]].Event.At() == first.Event.At() && c.Items[order[n]].Staff == first.Staff {
			n++
		}
		together := make([]*Item, n)
		for k := range together {
			together[k] = &c.Items[order[k]]
		}
		order = order[n:]
		r := arranged(together, &staves[first.Staff])
		r.Staff = first.Staff
		if k := len(c.places) - 1; k >= 0 && c.places[k].at == first.Event.At() {
			c.places[k].reach = append(c.places[k].reach, r)
		} else {
			c.places = append(c.places, place{first.Event.At(), []Reach{r}})
		}
	}
}

// arranged sets out what stands in one column of one staff.
func arranged(together []*Item, st *Staff) (r Reach) {
	for j, b := range together {
		for _, a := range together[:j] {
			if a.Note != nil && b.Note != nil {
				giveWay(a, b)
			}
		}
	}
	setAccidentals(together)
	for _, it := range together {
		left, right := it.extent(st)
		r.Left, r.Right = max(r.Left, left), max(r.Right, right)
		if it.Note != nil {
			r.Lyric = max(r.Lyric, lyricRoom(it.Note.Lyrics))
		}
	}
	for _, it := range together {
		r.Left = it.placeGraces(r.Left, st)
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
