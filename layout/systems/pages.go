package systems

import (
	"iter"

	"tieover/layout/sheet"
)

// In tenths of a staff height: a staff with its marks, and each further one. It
// is a careful estimate: a page that holds more than was reckoned loses nothing,
// one that holds less would spill over.
const (
	firstStaff   = 35
	furtherStaff = 25
)

// inSystems returns how many systems of so many staves the pages have room for.
func inSystems(r sheet.PageRoom, staves int) sheet.PageRoom {
	height := firstStaff + furtherStaff*(staves-1)
	return sheet.PageRoom{First: max(2, 10*r.First/height), Others: max(2, 10*r.Others/height)}
}

// Pages has new pages begin with some of the systems, each of so many staves, where a
// page has the given room.
func Pages(systems iter.Seq[System], page sheet.PageRoom, staves int) iter.Seq[System] {
	return turned(systems, inSystems(page, staves))
}

// turned has new pages begin at most as many systems apart as there is room for: with
// the one after the longest rest in the second half of the page, the last of several;
// where no system of that half ends with a rest the page is filled.
func turned(systems iter.Seq[System], room sheet.PageRoom) iter.Seq[System] {
	return func(yield func(System) bool) {
		page := make([]System, 0, 1+max(room.First, room.Others)) // the systems that may begin the next page
		fits := room.First - 1                                    // how many more are on the present page
		for s := range systems {
			if page = append(page, s); len(page) <= fits {
				continue
			}
			turn := fits
			for i := fits; i >= (fits+1)/2; i-- {
				if page[i].rested > max(1, page[turn].rested) {
					turn = i
				}
			}
			page[turn].Break = sheet.NewPage
			for _, s := range page[:turn+1] {
				if !yield(s) {
					return
				}
			}
			page = append(page[:0], page[turn+1:]...)
			fits = room.Others - 1
		}
		for _, s := range page {
			if !yield(s) {
				return
			}
		}
	}
}
