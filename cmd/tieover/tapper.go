package main

import (
	"bytes"
	"cmp"
	"crypto/rand"
	"crypto/subtle"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"tieover/cmd/tieover/files"
	"tieover/export/chart"
	"tieover/export/page"
	"tieover/export/readback"
	"tieover/score/find"
	"tieover/score/found"
	"tieover/score/spec"
)

// tapper answers the page on which parts are tapped: the page itself at /, and
// what is sent from it at /find and /save, with the token that only the page
// knows.
type tapper struct {
	local
	dir   string
	token string
	page  []byte
	work  sync.Mutex // one at a time finds or saves
}

// Bounds of what is sent.
const (
	mostSent  = 1 << 20 // bytes
	mostParts = 16
	mostTaps  = 5_000 // of all parts
)

func newTapper(port int, dir string) (*tapper, error) {
	t := &tapper{local: newLocal(port), dir: dir, token: rand.Text()}
	var b bytes.Buffer
	err := page.WriteTap(&b, page.Tap{Token: t.token, Dir: dir})
	t.page = b.Bytes()
	return t, err
}

// take is what the page sends: parts of taps on one clock.
type take struct {
	Parts []tapped `json:"parts"`
	Tempo float64  `json:"tempo"` // quarters a minute; 0: find estimates it
	Meter string   `json:"meter"` // "": find chooses one
	File  string   `json:"file"`  // name of the recording, if there is one
}

type tapped struct {
	Name string    `json:"name"`
	Taps []float64 `json:"taps"` // seconds, rising
}

// answer is what is sent back to the page.
type answer struct {
	Found string `json:"found"` // the descriptions in words
	Spec  string `json:"spec"`  // "" when none could be written
	Chart string `json:"chart"`
	Told  string `json:"told"` // what is wrong or worth knowing
	Saved bool   `json:"saved"`
}

func (t *tapper) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if t.refuses(w, r) {
		return
	}
	read := r.Method == http.MethodGet || r.Method == http.MethodHead
	switch {
	case r.RequestURI == "/" && read:
		sendPage(w, t.page)
	case r.RequestURI == "/":
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "the page can only be read", http.StatusMethodNotAllowed)
	case r.RequestURI != "/find" && r.RequestURI != "/save":
		http.Error(w, "there is nothing here", http.StatusNotFound)
	case r.Method != http.MethodPost:
		w.Header().Set("Allow", "POST")
		http.Error(w, "taps are sent here", http.StatusMethodNotAllowed)
	case !t.isOwn(r):
		http.Error(w, "only the page of this server may send taps", http.StatusForbidden)
	default:
		t.answer(w, r)
	}
}

// isOwn reports whether a request comes from the page: from its own origin, as
// the browser says, with the token that was given to it.
func (t *tapper) isOwn(r *http.Request) bool {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	token := []byte(r.Header.Get("X-Tieover-Token"))
	origin, plain := strings.CutPrefix(r.Header.Get("Origin"), "http://")
	return plain && slices.Contains(t.hosts, origin) && err == nil && kind == "application/json" &&
		subtle.ConstantTimeCompare(token, []byte(t.token)) == 1
}

func (t *tapper) answer(w http.ResponseWriter, r *http.Request) {
	var sent take
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostSent))
	d.DisallowUnknownFields()
	if err := d.Decode(&sent); err != nil {
		http.Error(w, "this is no take", http.StatusBadRequest)
		return
	}
	if err := sent.check(); err != nil {
		http.Error(w, err.Error(), http.StatusBadRequest)
		return
	}
	t.work.Lock()
	defer t.work.Unlock()
	var a answer
	err := files.Safely(func(io.Writer) error {
		if err := sent.find(&a); err != nil {
			a.tell(err)
		}
		if r.RequestURI == "/save" {
			return t.save(r, &sent, &a)
		}
		return nil
	}, nil)
	if err != nil {
		a.tell(err)
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(a) // a browser that has gone needs no answer
}

func (a *answer) tell(err error) { a.Told = strings.TrimSpace(a.Told + "\n" + err.Error()) }

// check refuses what the page never sends.
func (t *take) check() error {
	all := 0
	for _, p := range t.Parts {
		all += len(p.Taps)
		if !slices.IsSorted(p.Taps) {
			return errors.New("the taps of a part must rise")
		}
	}
	if len(t.Parts) == 0 || len(t.Parts) > mostParts || all > mostTaps {
		return fmt.Errorf("a take has 1 to %d parts and up to %d taps", mostParts, mostTaps)
	}
	return nil
}

// names are the file names of the parts, without ending.
func (t *take) names() []string {
	var names []string
	taken := map[string]bool{}
	for i, p := range t.Parts {
		names = append(names, uniqueFileName(p.Name, fmt.Sprintf("part-%d", i+1), taken))
	}
	return names
}

// text is a part as find reads it: seconds, one a line.
func (p tapped) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", strings.Join(strings.Fields(p.Name), " "))
	for _, s := range p.Taps {
		fmt.Fprintf(&b, "%.3f\n", s)
	}
	return b.String()
}

// find finds the loops of all parts, as the command of that name does, and draws the
// chart of the spec that they make.
func (t *take) find(a *answer) error {
	o := findOptions{tempo: t.Tempo, meter: t.Meter, top: usualTop}
	m, err := t.music(&o)
	if err != nil {
		return err
	}
	var text, drawn strings.Builder
	if err := readback.Find(&visible{to: &text}, m, o.top); err != nil {
		return err
	}
	a.Found, a.Told = text.String(), strings.Join(m.Notes, "\n")
	written, notes, err := m.Spec()
	if err != nil {
		a.Told = strings.Join(append(m.Notes, notes...), "\n")
		return err
	}
	a.Spec = t.aligned(written)
	p, problems := spec.Read([]spec.File{{Name: "section.yaml", Text: []byte(a.Spec)}})
	if len(problems) > 0 {
		return problems.Err()
	}
	err = chart.Write(&drawn, p, chart.Default())
	a.Chart = drawn.String()
	return err
}

// music is what was tapped, with what find says of it.
func (t *take) music(o *findOptions) (found.Music, error) {
	if err := o.check(); err != nil {
		return found.Music{}, err
	}
	var parts []find.TapPart
	for _, p := range t.Parts {
		if len(p.Taps) == 0 {
			continue
		}
		onsets, err := seconds(p.text()) // as they are saved, and read again from there
		if err != nil {
			return found.Music{}, err
		}
		parts = append(parts, find.TapPart{Name: cmp.Or(found.Tidy(p.Name), "Line"), Onsets: onsets})
	}
	if len(parts) == 0 {
		return found.Music{}, errors.New("nothing has been tapped yet")
	}
	m, err := o.fromTaps(parts)
	if err != nil {
		return m, err
	}
	if o.meter != "" {
		o.setMeter(&m)
	}
	o.rank(m)
	return m, nil
}

// aligned adds to a spec when it sounds in the recording: its first attack is the
// first tap.
func (t *take) aligned(spec string) string {
	if t.File == "" {
		return spec
	}
	first := -1.0
	for _, p := range t.Parts {
		if len(p.Taps) > 0 && (first < 0 || p.Taps[0] < first) {
			first = p.Taps[0]
		}
	}
	name, _ := json.Marshal(strings.Join(strings.Fields(t.File), " ")) // a quoted text of YAML too
	return strings.TrimRight(spec, "\n") + fmt.Sprintf("\nrecording: {file: %s, starts: %.3f s}\n", name, max(0, first))
}

// save writes the taps, if there are any, and the spec, and then builds it. What is
// there already and was not written by tieover, or was changed since, stays.
func (t *tapper) save(r *http.Request, sent *take, a *answer) error {
	if !slices.ContainsFunc(sent.Parts, func(p tapped) bool { return len(p.Taps) > 0 }) {
		return nil
	}
	var files []output
	for i, name := range sent.names() {
		files = append(files, output{name + ".txt", constant(sent.Parts[i].text()), "taps"})
	}
	if a.Spec != "" {
		files = append(files, output{"section.yaml", constant(a.Spec), "taps"})
	}
	var messages bytes.Buffer
	if err := writeAll(r.Context(), streams{strings.NewReader(""), &messages, &messages}, place{dir: t.dir}, files); err != nil {
		return fmt.Errorf("nothing was saved: %w", err)
	}
	a.Saved = true
	a.Told += messages.String()
	if a.Spec == "" {
		a.Told += "\nsaved the taps in " + t.dir
		return nil
	}
	var told bytes.Buffer
	code := run([]string{"build", filepath.Join(t.dir, "section.yaml"), "-o", t.dir}, streams{strings.NewReader(""), io.Discard, &told})
	a.Told += "\n" + told.String()
	if code == done {
		a.Told += "saved taps, section.yaml and all that is built from it in " + t.dir
	} else {
		a.Told += "saved the taps and section.yaml in " + t.dir + "; what is built from it was not written"
	}
	return nil
}
