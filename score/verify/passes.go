package verify

import "tieover/score"

// barsOf lists the bars that a pass plays of its section.
func barsOf(s *score.Section, p score.Pass) []score.Bar {
	var all []score.Bar
	for b := range s.Bars() {
		if b.Start >= p.From {
			all = append(all, b)
		}
	}
	return all
}
