package spec

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/spec/grammar"
)

// readLyrics reads what is sung: a verse, or a list of verses.
func readLyrics(r *reader, n *yaml.Node, v *voice) {
	if !r.notEmpty(n, "lyrics") {
		return
	}
	for _, item := range items(n) {
		s, ok := r.name(item, "lyrics")
		if !ok {
			continue
		}
		lyrics, bad := parseLyrics(s)
		if bad != nil {
			r.slip(item, bad)
			continue
		}
		v.Verses = append(v.Verses, score.Verse{Pos: r.at(item), Lyrics: lyrics})
	}
}

// hyphenSign prints a hyphen where a plain one would divide the word.
const hyphenSign = "\u2011"

// parseLyrics reads a verse: blanks divide words, a hyphen divides syllables and may
// have blanks beside it, = holds what is sung over one more attack.
func parseLyrics(s string) ([]score.Lyric, *grammar.Slip) {
	var all []score.Lyric
	last, open := -1, -1 // the latest syllable, and the place of the hyphen after it
	for _, w := range grammar.Split(s, "-") {
		switch {
		case w.Text == "-" && (last < 0 || open >= 0):
			return nil, aloneHyphen(w.At)
		case w.Text == "-":
			open = w.At
		case w.Text == "=":
			all = append(all, score.Lyric{})
		case strings.Contains(w.Text, "="):
			return nil, grammar.Wrong(w.At, "write blanks around each =, one an attack", "%q has a = in it", grammar.Shortened(w.Text))
		default:
			y := score.Lyric{Text: strings.ReplaceAll(w.Text, hyphenSign, "-")}
			if open >= 0 {
				all[last].Syllabic = map[score.Syllabic]score.Syllabic{score.WholeWord: score.WordBegins, score.WordEnds: score.WordGoesOn}[all[last].Syllabic]
				y.Syllabic = score.WordEnds
			}
			last, open = len(all), -1
			all = append(all, y)
		}
	}
	switch {
	case last < 0:
		return nil, grammar.Wrong(0, "write what is sung, as in Ha-rken now =", "the lyrics have no syllable")
	case open >= 0:
		return nil, aloneHyphen(open)
	}
	markExtenders(all)
	return all, nil
}

func aloneHyphen(at int) *grammar.Slip {
	return grammar.Wrong(at, "write one there, or remove the hyphen", "a syllable is missing beside a hyphen")
}

// markExtenders marks the last syllables of words that are held over further attacks;
// inside a word the hyphen shows it.
func markExtenders(all []score.Lyric) {
	ended := false
	for i := range all {
		if all[i].Text != "" {
			ended = all[i].Syllabic == score.WholeWord || all[i].Syllabic == score.WordEnds
		}
		all[i].Extend = ended && i+1 < len(all) && all[i+1].Text == ""
	}
}
