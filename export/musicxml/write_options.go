package musicxml

import (
	"fmt"
	"time"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Options is what may be chosen about a document beside its music. The zero
// value is A4 with a 7 mm staff and margins of twice that, without a date.
type Options struct {
	Page   Page
	Staff  int    // height of a five-line staff in 1/100 mm, 300 to 1200; 0 for 700
	Margin int    // on each side of the page in 1/100 mm, 0 to 5000; 0 for two staff heights
	Date   string // when the document was made, as 2031-05-30; "" writes none
}

// Page is a paper size.
type Page int

const (
	A4 Page = iota
	Letter
)

// size returns width and height in 1/100 mm.
func (p Page) size() (width, height int) {
	if p == Letter {
		return 21590, 27940 // 8.5 by 11 inches
	}
	return 21000, 29700 // ISO 216
}

// Room is how much of a page is left for music: between the margins, and on
// the first page below a title block with two names.
func (o Options) Room() sheet.PageRoom {
	_, height := o.Page.size()
	inner := height - 2*o.margin()
	return sheet.PageRoom{First: (inner - titleBlock - namesStep - belowTitle) / o.staff(), Others: inner / o.staff()}
}

func (o Options) check() error {
	if o.staff() < 300 || o.staff() > 1200 {
		return fmt.Errorf("staff height %s mm: between 3 and 12 mm are possible", beat.Of(int64(o.Staff), 100).Rounded(2))
	}
	if o.Margin < 0 || o.Margin > 5000 {
		return fmt.Errorf("margin %s mm: between 0 and 50 mm are possible", beat.Of(int64(o.Margin), 100).Rounded(2))
	}
	if o.Page != A4 && o.Page != Letter {
		return fmt.Errorf("page size %d: A4 or letter", o.Page)
	}
	if o.Date != "" {
		if _, err := time.Parse(time.DateOnly, o.Date); err != nil {
			return fmt.Errorf("date %q: write year, month and day as 2031-05-30", o.Date)
		}
	}
	return nil
}

func (o Options) staff() int {
	if o.Staff == 0 {
		return 700
	}
	return o.Staff
}

func (o Options) margin() int {
	if o.Margin == 0 {
		return 2 * o.staff()
	}
	return o.Margin
}

// tenths returns a length in 1/100 mm as tenths of a staff space, of which a
// staff has 40.
func (o Options) tenths(length int) string {
	return beat.Of(int64(length)*40, int64(o.staff())).Rounded(2)
}

// divisions is how many ticks a quarter has: every time on the sheet is whole
// in ticks of its grid.
func (e *encoder) divisions() beat.Time { return beat.Time(e.sheet.Grid) / 4 }
