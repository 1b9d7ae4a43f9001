package musicxml

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
)

// writtenDoc returns the sheet as a document.
func writtenDoc(t testing.TB, s *sheet.Sheet, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, s, o))
	return b.Bytes()
}

// fixtures are all sheets made by hand.
func fixtures() map[string]*sheet.Sheet {
	return map[string]*sheet.Sheet{"towpath": towpath(), "everything": everything(), "stand": stand(), "many": manyParts(), "looping": looping(3, 200)}
}

// manyParts has more pitched parts than MIDI has channels.
func manyParts() *sheet.Sheet {
	s := &sheet.Sheet{Title: "Barges", Grid: testGrid, Bars: 1}
	for i := range 18 {
		m := measure(common4, plainVoice(note(whole_, at("C4"))))
		s.Parts = append(s.Parts, part(fmt.Sprintf("Barge %d", i+1), fmt.Sprintf("B%d", i+1), "flute",
			sheet.Bar{Measure: m, NewMeter: true, NewKey: true, Barline: sheet.Final}))
	}
	return s
}

// looping has parts of bars that repeat in turn, as sections of loops do, with
// the marks of a cycle in each.
func looping(parts, bars int) *sheet.Sheet {
	s := &sheet.Sheet{Title: "Round", Grid: testGrid, Bars: bars}
	for p := range parts {
		var different []*sheet.Measure
		for i := range 5 + p {
			heads := []sheet.Head{at("C5"), at("E5"), at("G4")}
			different = append(different, measure(common4, plainVoice(
				run(eighth_, heads[i%3], heads[(i+1)%3], heads[(i+2)%3]),
				note(dotted(quarter_), heads[i%3]), note(quarter_, heads[(i+1)%3]))))
		}
		list := make([]sheet.Bar, bars)
		for i := range list {
			list[i] = sheet.Bar{Measure: different[i%len(different)], Marks: []sheet.Mark{
				numbered(sheet.CycleNumber, 0, i+1), mark(sheet.Grouping, 0, "3+3+2"),
				mark(sheet.CycleStart, 0, ""), mark(sheet.CycleStop, 4, "")}}
		}
		list[0].NewMeter, list[0].NewKey = true, true
		list[bars-1].Barline = sheet.Final
		s.Parts = append(s.Parts, part(fmt.Sprintf("Layer %d", p+1), "L.", "marimba", list...))
	}
	return s
}

func TestWriteGivesTheBytesOfThePlainestWay(t *testing.T) {
	for name, laid := range fixtures() {
		t.Run(name, func(t *testing.T) {
			var plain, barwise bytes.Buffer
			require.NoError(t, writePlain(&plain, laid, Options{Page: Letter, Date: "2031-05-30"}))
			require.NoError(t, writeBarwise(&barwise, laid, Options{Page: Letter, Date: "2031-05-30"}))
			got := writtenDoc(t, laid, Options{Page: Letter, Date: "2031-05-30"})
			require.Equal(t, plain.String(), string(got))
			require.Equal(t, plain.String(), barwise.String())
		})
	}
}

func TestWriteTwiceGivesTheSameBytes(t *testing.T) {
	laid := everything()
	assert.Equal(t, writtenDoc(t, laid, Options{}), writtenDoc(t, laid, Options{}))
	assert.Equal(t, writtenDoc(t, everything(), Options{}), writtenDoc(t, laid, Options{}))
}

// A part that never repeats must empty its memory and still be right.
func TestWriteEmptiesItsMemory(t *testing.T) {
	bars := make([]sheet.Bar, memoSize+10)
	for i := range bars {
		bars[i] = sheet.Bar{Measure: measure(common4, plainVoice(note(whole_, at("C5")))), NewMeter: i == 0, NewKey: i == 0,
			Marks: []sheet.Mark{mark(sheet.Words, 0, fmt.Sprint("lock ", i))}}
	}
	laid := &sheet.Sheet{Title: "Long", Grid: testGrid, Bars: len(bars), Parts: []sheet.Part{part("Flute", "Fl.", "flute", bars...)}}
	var plain bytes.Buffer
	require.NoError(t, writePlain(&plain, laid, Options{}))
	assert.Equal(t, plain.Len(), len(writtenDoc(t, laid, Options{})))
	assert.True(t, bytes.Equal(plain.Bytes(), writtenDoc(t, laid, Options{})))
}

func TestWriteRefusesWhatXMLCannotHold(t *testing.T) {
	// XML 1.0, production 2 (Char): no control characters but tab and line
	// ends, no surrogates, not FFFE and FFFF.
	for _, bad := range []string{"a\x00b", "a\x07b", "a\x1bb", "a\ufffeb", "a\uffffb", "a\xffb", "a\xed\xa0\x80b"} {
		sheets := map[string]func(s *sheet.Sheet){
			"title":     func(s *sheet.Sheet) { s.Title = bad },
			"subtitle":  func(s *sheet.Sheet) { s.Subtitle = bad },
			"composer":  func(s *sheet.Sheet) { s.Composer = bad },
			"arranger":  func(s *sheet.Sheet) { s.Arranger = bad },
			"rights":    func(s *sheet.Sheet) { s.Rights = bad },
			"part name": func(s *sheet.Sheet) { s.Parts[0].Name = bad },
			"short":     func(s *sheet.Sheet) { s.Parts[0].Short = bad },
			"layer":     func(s *sheet.Sheet) { s.Parts[0].Layers = []string{bad} },
			"mark": func(s *sheet.Sheet) {
				s.Parts[0] = part("F", "F", "flute", sheet.Bar{Measure: emptyBar(1), Marks: []sheet.Mark{mark(sheet.Words, 0, bad)}})
			},
			"syllable": func(s *sheet.Sheet) {
				n := note(whole_, at("C4"))
				n.Lyrics = []score.Lyric{{Text: bad}}
				s.Parts[0] = part("F", "F", "flute", sheet.Bar{Measure: measure(common4, plainVoice(n))})
			},
		}
		for place, spoil := range sheets {
			laid := towpath()
			spoil(laid)
			err := Write(&bytes.Buffer{}, laid, Options{})
			if assert.Error(t, err, "%s with %q", place, bad) {
				assert.Contains(t, err.Error(), "character 2")
			}
		}
	}
}

func TestWriteKeepsUnusualTexts(t *testing.T) {
	for _, text := range []string{`a <b> & "c" 'd'`, "قناة الأقفال", "🛶🚪", "naïve", "]]>", "&amp;", "\uFFFD"} {
		laid := towpath()
		laid.Title, laid.Parts[1].Name = text, text
		laid.Parts[0] = part("F", "F", "flute", sheet.Bar{Measure: emptyBar(1), Marks: []sheet.Mark{mark(sheet.Boxed, 0, text)}})
		laid.Parts = laid.Parts[:1]
		laid.Parts[0].Name = text
		doc := parse(t, writtenDoc(t, laid, Options{}))
		assert.Equal(t, text, doc.text("movement-title"))
		assert.Equal(t, text, doc.text("part-name"))
		assert.Equal(t, text, doc.text("words"))
		assert.Equal(t, text, doc.all("credit-words")[0].Text)
	}
}

// full is a writer that takes so many bytes and then fails, as a full disk.
type full struct{ left int }

var errFull = errors.New("no space left")

func (f *full) Write(b []byte) (int, error) {
	if len(b) > f.left {
		n := f.left
		f.left = 0
		return n, errFull
	}
	f.left -= len(b)
	return len(b), nil
}

func TestWriteReportsAFullDisk(t *testing.T) {
	laid := looping(2, 300)
	size := len(writtenDoc(t, laid, Options{}))
	for _, room := range []int{0, 1, 5000, size / 2, size - 1} {
		assert.ErrorIs(t, Write(&full{room}, laid, Options{}), errFull, "room for %d of %d bytes", room, size)
		if room < size/100 { // deflated it takes less
			assert.ErrorIs(t, WriteCompressed(&full{room}, laid, Options{}), errFull)
		}
	}
	assert.NoError(t, Write(&full{size}, laid, Options{}))
}

// The walk over the bars must end soon after the writer fails.
func TestWriteStopsWalkingWhenTheWriterFails(t *testing.T) {
	walked := 0
	m := measure(common4, plainVoice(note(whole_, at("C5"))))
	p := sheet.NewPart(towpath().Parts[0], func(yield func(*sheet.Bar) bool) {
		for i := range 1_000_000 {
			walked++
			if !yield(&sheet.Bar{Number: i + 1, Measure: m, Break: sheet.Break(i % 3)}) {
				return
			}
		}
	})
	err := Write(&full{100_000}, &sheet.Sheet{Title: "T", Grid: testGrid, Parts: []sheet.Part{p}}, Options{})
	assert.ErrorIs(t, err, errFull)
	assert.Less(t, walked, 2000)
}

func TestOptionsAreChecked(t *testing.T) {
	for _, o := range []Options{
		{Staff: 299}, {Staff: 1201}, {Margin: -1}, {Margin: 5001}, {Page: 2},
		{Date: "yesterday"}, {Date: "2031-02-30"}, {Date: "2031-05-30T10:00:00Z"},
	} {
		assert.Error(t, Write(&bytes.Buffer{}, towpath(), o), "%+v", o)
	}
	for _, o := range []Options{{Staff: 300}, {Staff: 1200}, {Margin: 5000}, {Date: "2032-02-29"}} {
		assert.NoError(t, Write(&bytes.Buffer{}, towpath(), o), "%+v", o)
	}
}

// Page sizes: ISO 216 and 8.5 by 11 inches, a staff of 7 mm being 40 tenths.
func TestPageInTenths(t *testing.T) {
	for _, c := range []struct {
		o             Options
		width, height string
	}{
		{Options{}, "1200", "1697.14"},
		{Options{Page: Letter}, "1233.71", "1596.57"},
		{Options{Staff: 500}, "1680", "2376"},
	} {
		doc := parse(t, writtenDoc(t, towpath(), c.o))
		assert.Equal(t, c.width, doc.text("page-width"))
		assert.Equal(t, c.height, doc.text("page-height"))
	}
}

func TestMarksOutOfOrderAreOurOwnMistake(t *testing.T) {
	bar := sheet.Bar{Measure: measure(common4, plainVoice(note(half_, at("C4")), note(half_, at("C4")))),
		Marks: []sheet.Mark{mark(sheet.Words, 1, "b"), mark(sheet.Words, 0, "a")}}
	laid := &sheet.Sheet{Title: "T", Grid: testGrid, Parts: []sheet.Part{part("F", "F", "flute", bar)}}
	assert.PanicsWithValue(t, "musicxml: bar 1 of F: mark 2 stands before the one ahead of it", func() {
		_ = Write(&bytes.Buffer{}, laid, Options{})
	})
}

func TestGhostsAreInParentheses(t *testing.T) {
	laid := &sheet.Sheet{Title: "T", Grid: testGrid, Parts: []sheet.Part{part("F", "F", "flute",
		sheet.Bar{Measure: measure(common4, plainVoice(touched(note(whole_, at("C4")), score.Ghost)))})}}
	assert.Contains(t, string(writtenDoc(t, laid, Options{})), `<notehead parentheses="yes">normal</notehead>`)
	assert.NotContains(t, strings.ReplaceAll(string(writtenDoc(t, towpath(), Options{})), "\n", ""), "notehead")
}

// ISO 216: A4 is 297 mm high. Between margins of 14 mm are 269 mm, 38 staves of
// 7 mm; a title block with two names takes 35 mm of the first page: 33 staves.
func TestRoomForMusic(t *testing.T) {
	assert.Equal(t, sheet.PageRoom{First: 33, Others: 38}, Options{}.Room())
	assert.Equal(t, sheet.PageRoom{First: 48, Others: 55}, Options{Page: Letter, Staff: 500, Margin: 200}.Room(), "275.4 mm and 240.4 mm")
	assert.Equal(t, sheet.PageRoom{First: 48, Others: 55}, Options{Staff: 500}.Room(), "two staves of 5 mm on each side leave 277 mm")
}

// By hand: 68 characters of 15 points take 510 of 515.9 points, 69 take 517.5: from
// there a title is broken at the blank nearest its middle. Of 71 characters in
// words of 7, 23 and 39 the middle is after 35.5, the second blank stands after 31,
// the first after 7. What is below comes 5 mm lower.
func TestVeryLongTitlesAreBroken(t *testing.T) {
	words := []string{strings.Repeat("a", 7), strings.Repeat("b", 23), strings.Repeat("c", 39)}
	laid := towpath()
	laid.Title = strings.Join(words, " ")
	raw := string(writtenDoc(t, laid, Options{}))
	assert.Contains(t, raw, ">"+words[0]+" "+words[1]+"\n"+words[2]+"</credit-words>")
	assert.Contains(t, raw, "<movement-title>"+laid.Title+"<", "one line")
	laid.Title = strings.Join(words, " ")[:68]
	assert.NotContains(t, string(writtenDoc(t, laid, Options{})), "\n"+strings.Repeat("c", 36))
	assert.Equal(t, strings.Repeat("d", 90), titleLines(strings.Repeat("d", 90), 18200), "no blank, no break")
}

// By hand: 182 mm are 515.9 points. A character takes half its size, so 49
// characters of 21 points take 514.5, 50 take 525; 57 of 18 take 513, 58 take 522.
func TestLongTitlesAreSmaller(t *testing.T) {
	for letters, size := range map[int]string{1: "21", 49: "21", 50: "18", 57: "18", 58: "15", 120: "15"} {
		laid := towpath()
		laid.Title = strings.Repeat("Ä", letters)
		credit := writtenDoc(t, laid, Options{})
		assert.Contains(t, string(credit), `font-size="`+size+`" halign="center" justify="center" valign="top">`+laid.Title, "%d letters", letters)
	}
}
